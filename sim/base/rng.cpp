#include "sim/base/rng.hpp"

#include "sim/base/hash.hpp"

namespace sixty {

std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> c,
                                    std::array<std::uint32_t, 2> key) {
  for (int round = 0; round < 10; ++round) {
    const std::uint64_t p0 = std::uint64_t{0xD2511F53} * c[0];
    const std::uint64_t p1 = std::uint64_t{0xCD9E8D57} * c[2];
    c = {static_cast<std::uint32_t>(p1 >> 32) ^ c[1] ^ key[0], static_cast<std::uint32_t>(p1),
         static_cast<std::uint32_t>(p0 >> 32) ^ c[3] ^ key[1], static_cast<std::uint32_t>(p0)};
    key[0] += 0x9E3779B9;
    key[1] += 0xBB67AE85;
  }
  return c;
}

double uniform_draw(std::uint64_t seed, std::uint64_t who, std::uint32_t stream,
                    std::uint64_t number) {
  const std::uint64_t key = mix(mix(1, seed), who);  // seed and who must not be exchangeable
  const auto out = philox(
      {static_cast<std::uint32_t>(number), static_cast<std::uint32_t>(number >> 32), stream, 0},
      {static_cast<std::uint32_t>(key), static_cast<std::uint32_t>(key >> 32)});
  const std::uint64_t bits = (std::uint64_t{out[0]} << 21) ^ (out[1] >> 11);
  return static_cast<double>(bits & ((std::uint64_t{1} << 53) - 1)) * 0x1p-53;
}

}  // namespace sixty
