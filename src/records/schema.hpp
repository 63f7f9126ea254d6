// SPDX-License-Identifier: MIT
#pragma once

#include "records/database.hpp"

namespace soilclock::records {

/// The tables of the records file. A change of tables is a new migration at the end of the list (schema.cpp).
const Schema& records_schema();

}  // namespace soilclock::records
