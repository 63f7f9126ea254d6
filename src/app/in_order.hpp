// SPDX-License-Identifier: MIT
// Work on one thing after another by several threads, finished in the order of the things.
#pragma once

#include <functional>

namespace soilclock::app {

/// Finishes one thing. False: enough, no other is finished.
using Finish = std::function<bool()>;
/// What may be done for one thing beside others; gives how it is finished.
using Work = std::function<Finish()>;
/// The next thing; empty when there is none.
using NextWork = std::function<Work()>;

/// Asks for one thing after another, works on up to `jobs` of them at once and finishes them in the order in
/// which they came. `next` is called by one thread at a time, and so is what finishes; a thing is finished as
/// soon as it and all before it are worked on, also while `next` waits for another. At most twice as many
/// things as jobs have come and are not finished. An exception takes the place of its thing: what comes
/// before is finished, then it is thrown here, and nothing after it is. With one job, or where the system
/// gives no threads, everything happens in the calling thread.
void work_in_order(int jobs, const NextWork& next);

}  // namespace soilclock::app
