#include "sim/instruments/uncertainty.hpp"

#include <cmath>

#include "sim/base/hash.hpp"
#include "sim/base/rng.hpp"

namespace sixty::instruments {

double expanded_uncertainty(std::initializer_list<double> limits) {
  double squares = 0;
  for (const double limit : limits) squares += limit * limit;
  return 2 * std::sqrt(squares / 3);
}

double own_error(std::uint64_t seed, std::string_view instrument, std::uint32_t stream,
                 std::uint64_t number) {
  return 2 * uniform_draw(seed, hash_text(instrument), stream, number) - 1;
}

double to_step(double value, double step) { return std::round(value / step) * step; }

}  // namespace sixty::instruments
