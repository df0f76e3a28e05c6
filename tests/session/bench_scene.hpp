#pragma once

#include <gtest/gtest.h>

#include <cstring>
#include <string>
#include <vector>

#include "models/part_list.hpp"
#include "sim/base/hash.hpp"
#include "sim/run/session.hpp"
#include "sim/scene/loader.hpp"

namespace sixty {

inline const Registry& all_parts() {
  static const Registry registry = models::registry();
  return registry;
}

/// The smallest whole installation, with changes as on the command line.
inline std::shared_ptr<const Installation> bench_scene(const SceneChanges& changes = {},
                                                       const char* name = "bench-minimal") {
  Diagnostics diagnostics;
  auto made = load_scene(std::string(SIXTY_SOURCE_DIR "/scenes/") + name + ".yaml", all_parts(),
                         changes, diagnostics);
  EXPECT_NE(made, nullptr) << diagnostics.to_text();
  return made;
}

/// Part and number of a reading written "part.reading".
inline double read(Session& session, const std::string& name) {
  const std::string part = name.substr(0, name.find('.'));
  const std::string reading = name.substr(name.find('.') + 1);
  const auto& parts = session.installation().parts;
  for (PartId p = 0; p < parts.size(); ++p) {
    if (parts[p].name != part) continue;
    const auto& readings = parts[p].kind->declaration.readings;
    for (std::size_t k = 0; k < readings.size(); ++k) {
      if (readings[k].name == reading) return session.read(p, k);
    }
  }
  ADD_FAILURE() << "no reading " << name;
  return 0;
}

/// Everything that is recorded, folded into a hash for comparing.
class HashSink : public TraceSink {
 public:
  explicit HashSink(bool full = false) : full_(full) {}
  bool full() const override { return full_; }
  void record(const TraceRecord& r) override {
    ++count;
    std::uint64_t h = mix(static_cast<std::uint64_t>(r.event.at), r.event.kind);
    h = mix(mix(h, r.part), static_cast<std::uint64_t>(r.event.number));
    h = hash_bytes(&r.event.value, sizeof(double), h);
    if (r.located != nullptr) {
      const circuit::Located& l = *r.located;
      const double values[] = {l.current_a, l.volts, l.gap_m, l.speed_m_per_s, l.needed_v};
      h = hash_bytes(values, sizeof values, h);
    }
    hash = mix(hash, h);
    ids = mix(mix(ids, r.event.id), r.event.cause);
  }
  std::uint64_t hash = 1;
  std::uint64_t ids = 1;
  std::size_t count = 0;

 private:
  bool full_;
};

}  // namespace sixty
