#include "tests/instruments/measured.hpp"

#include <gtest/gtest.h>

#include <cstdio>
#include <fstream>

#include "models/part_list.hpp"
#include "sim/scene/loader.hpp"

namespace sixty {
namespace {

const Registry& parts() {
  static const Registry all = models::registry();
  return all;
}

std::shared_ptr<const Installation> load(const std::string& path, const SceneChanges& changes) {
  Diagnostics diagnostics;
  auto scene = load_scene(path, parts(), changes, diagnostics);
  EXPECT_NE(scene, nullptr) << diagnostics.to_text();
  return scene;
}

std::vector<instruments::Order> read_all(const std::vector<std::string>& orders,
                                         const Installation& scene, Diagnostics& diagnostics) {
  Mistakes mistakes(diagnostics);
  std::vector<instruments::Order> read;
  for (const std::string& text : orders) {
    if (const auto order = instruments::read_order(text, scene, mistakes)) read.push_back(*order);
  }
  instruments::check_orders(read, scene, mistakes);
  return read;
}

}  // namespace

std::shared_ptr<const Installation> scene_at(const std::string& path,
                                             const std::vector<std::string>& hands,
                                             const std::vector<std::string>& set) {
  SceneChanges changes;
  changes.action = hands;
  changes.set = set;
  return load(std::string(SIXTY_SOURCE_DIR) + "/" + path, changes);
}

std::shared_ptr<const Installation> scene_of(const std::string& yaml) {
  const auto* info = testing::UnitTest::GetInstance()->current_test_info();
  const std::string path = testing::TempDir() + "measured_" + info->name() + ".yaml";
  std::ofstream(path) << yaml;
  auto scene = load(path, {});
  std::remove(path.c_str());
  return scene;
}

std::vector<instruments::Answer> measured(const std::shared_ptr<const Installation>& scene,
                                          const std::vector<std::string>& orders, double from_s,
                                          double to_s, double every_s) {
  Diagnostics diagnostics;
  const std::vector<instruments::Order> read = read_all(orders, *scene, diagnostics);
  EXPECT_EQ(diagnostics.to_text(), "");
  return instruments::measure(scene, read,
                              {from_seconds(from_s), from_seconds(to_s), from_seconds(every_s)});
}

std::string mistakes_in(const std::shared_ptr<const Installation>& scene,
                        const std::vector<std::string>& orders) {
  Diagnostics diagnostics;
  read_all(orders, *scene, diagnostics);
  return diagnostics.to_text();
}

}  // namespace sixty
