#pragma once

#include <cstddef>
#include <functional>

namespace sixty::diagnose {

/// Does `job` for 0 .. count - 1, on several threads; what each does must not depend on the others.
/// `threads` 0: as many as there are cores. Errors: what a job throws is thrown again when all have
/// ended, and those that had not begun are left out.
void in_parallel(std::size_t count, std::size_t threads,
                 const std::function<void(std::size_t)>& job);

}  // namespace sixty::diagnose
