#include "sim/scene/draft.hpp"

namespace sixty {

bool split_reference(const Written& written, const std::string& example, Reference& reference,
                     Mistakes& mistakes) {
  const std::size_t dot = written.text.find('.');
  const bool sound = dot != std::string::npos && dot > 0 && dot + 1 < written.text.size() &&
                     written.text.find('.', dot + 1) == std::string::npos &&
                     written.text.find(' ') == std::string::npos;
  if (!sound) {
    mistakes.add(written.place,
                 {labelled(written, "this names nothing"), written.text, example,
                  "write a part's name, a point and the name of what belongs to it"});
    return false;
  }
  reference = {written.text.substr(0, dot), written.text.substr(dot + 1)};
  return true;
}

std::string titled(const DraftPart& part) {
  if (part.kind == nullptr || part.kind->name == part.name) return part.name;
  return part.name + " (" + part.kind->name + ")";
}

const DraftPart* find_part(const Draft& draft, const std::string& name, const Written& written,
                           Mistakes& mistakes) {
  const auto it = draft.by_name.find(name);
  if (it == draft.by_name.end()) {
    mistakes.add_unknown(written.place, "", "part", name, draft.names);
    return nullptr;
  }
  const DraftPart& part = draft.parts[it->second];
  return part.kind == nullptr ? nullptr : &part;
}

}  // namespace sixty
