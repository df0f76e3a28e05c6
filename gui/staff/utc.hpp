#pragma once

#include <cstdint>
#include <string>

namespace sixty::gui {

/// "2026-12-01T03:46:46Z". Units: unix seconds. Range: years 1 to 9999, else the nearest of them.
std::string utc_text(std::int64_t now);

/// "2026-12-01", of days since 1970-01-01; range as above.
std::string date_text(std::int64_t day);

}  // namespace sixty::gui
