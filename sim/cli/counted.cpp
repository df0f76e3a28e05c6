#include "sim/cli/counted.hpp"

#include <fmt/format.h>

namespace sixty::cli {

void Counted::show(std::size_t done, std::size_t all) {
  if (!line_.is_due()) return;
  const double left_s =
      line_.seconds() * static_cast<double>(all - done) / static_cast<double>(done > 0 ? done : 1);
  line_.write(fmt::format("{}: {} of {}, some {:.0f} s to go", what_, done, all, left_s));
}

}  // namespace sixty::cli
