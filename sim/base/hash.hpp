#pragma once

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <string_view>

namespace sixty {

/// One round of mixing two 64-bit words (the finaliser constants are those of SplitMix64).
constexpr std::uint64_t mix(std::uint64_t h, std::uint64_t word) {
  h = (h ^ word) * 0x9e3779b97f4a7c15ULL;
  h = (h ^ (h >> 32)) * 0xbf58476d1ce4e5b9ULL;
  return h ^ (h >> 29);
}

/// Hash of raw bytes, the same on every little-endian machine.
inline std::uint64_t hash_bytes(const void* data, std::size_t size, std::uint64_t h = 1) {
  const char* p = static_cast<const char*>(data);
  for (; size >= 8; p += 8, size -= 8) {
    std::uint64_t word = 0;
    std::memcpy(&word, p, 8);
    h = mix(h, word);
  }
  std::uint64_t tail = size;
  if (size > 0) std::memcpy(&tail, p, size);  // nothing at all may have no address
  return mix(h, tail ^ (static_cast<std::uint64_t>(size) << 56));
}

inline std::uint64_t hash_text(std::string_view text) {
  return hash_bytes(text.data(), text.size());
}

}  // namespace sixty
