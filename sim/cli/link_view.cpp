#include "sim/cli/link_view.hpp"

#include <fmt/format.h>

#include "sim/cli/layout.hpp"
#include "sim/cli/record_text.hpp"

namespace sixty::cli {
namespace {

using Json = nlohmann::ordered_json;

/// Other values of that part that are not as they were.
Json also_json(const explain::Link& link) {
  Json list = Json::array();
  for (const explain::Quantity& q : link.also)
    list.push_back(Json{{"quantity", q.name},
                        {"unit", q.unit.empty() ? Json(nullptr) : Json(q.unit)},
                        {"measured", q.measured},
                        {"expected", q.expected}});
  return list;
}

}  // namespace

std::string links_text(const std::vector<explain::Link>& links) {
  std::string text;
  for (std::size_t k = 0; k < links.size(); ++k)
    text += wrapped(fmt::format("{}. {}", k + 1, links[k].text), 2, 5);
  return text;
}

nlohmann::ordered_json links_json(const std::vector<explain::Link>& links,
                                  const Installation& scene) {
  Json list = Json::array();
  for (const explain::Link& link : links) {
    const bool number = !link.quantity.empty();
    list.push_back(Json{{"what", name_of(link.what)},
                        {"part", part_name(scene, link.part)},
                        {"at_s", to_seconds(link.at)},
                        {"quantity", number ? Json(link.quantity) : Json(nullptr)},
                        {"unit", link.unit.empty() ? Json(nullptr) : Json(link.unit)},
                        {"measured", number ? Json(link.measured) : Json(nullptr)},
                        {"expected", number ? Json(link.expected) : Json(nullptr)},
                        {"also", also_json(link)},
                        {"text", link.text}});
  }
  return list;
}

}  // namespace sixty::cli
