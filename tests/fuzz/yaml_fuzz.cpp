#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "sim/scene/yaml_document.hpp"

// Any bytes give a tree, or mistakes with a place; never both, and never a crash.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  sixty::Diagnostics diagnostics;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto node = sixty::parse_yaml(text, "fuzz.yaml", diagnostics);
  if (node.has_value() != diagnostics.empty()) std::abort();
  for (const sixty::Diagnostic& mistake : diagnostics.list())
    if (mistake.line < 1 || mistake.column < 1) std::abort();
  return 0;
}
