// SPDX-License-Identifier: MIT
// A forked copy of the test program that does one thing and can be killed. The parent must hold no open
// database.
#pragma once

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <functional>
#include <stdexcept>
#include <string>

class ChildProcess {
 public:
  /// Starts `work`; it gets a descriptor that the parent reads, and its return value becomes the exit code.
  explicit ChildProcess(const std::function<int(int)>& work) {
    int ends[2];
    if (pipe(ends) != 0) throw std::runtime_error("no pipe");
    id_ = fork();
    if (id_ < 0) throw std::runtime_error("no process");
    if (id_ == 0) {
      close(ends[0]);
      _exit(work(ends[1]));
    }
    close(ends[1]);
    from_child_ = ends[0];
  }
  ChildProcess(const ChildProcess&) = delete;
  ChildProcess& operator=(const ChildProcess&) = delete;
  ~ChildProcess() {
    if (id_ > 0) {
      kill_now();
      wait();
    }
    close(from_child_);
  }

  void kill_now() { kill(id_, SIGKILL); }

  /// The exit code, -1 when it was killed.
  int wait() {
    int status = 0;
    waitpid(id_, &status, 0);
    id_ = 0;
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

  /// What the child has written since the last call, until so many lines came or its end of the pipe closed.
  std::string said(std::size_t lines = static_cast<std::size_t>(-1)) {
    std::string text;
    char c = 0;
    while (lines > 0 && read(from_child_, &c, 1) == 1) {
      text += c;
      if (c == '\n') --lines;
    }
    return text;
  }

 private:
  pid_t id_ = 0;
  int from_child_ = -1;
};
