#include "sim/cli/progress.hpp"

#include <fmt/format.h>

#include "sim/cli/record_text.hpp"

namespace sixty::cli {

Progress::Progress(bool wanted, const Installation& installation)
    : clock_(clock_of(installation)), line_(wanted) {}

void Progress::show(SimTime now, SimTime until) {
  if (!line_.is_due()) return;
  const double share = until > 0 ? static_cast<double>(now) / static_cast<double>(until) : 1;
  line_.write(fmt::format("{:3.0f} %  {}  {:.0f} s", 100 * share, format_iso(clock_, now, 0),
                          line_.seconds()));
}

}  // namespace sixty::cli
