#include "sim/part/registry.hpp"

namespace sixty {

void Registry::add(const std::string& name, const PartType& type, const std::string& folder) {
  Entry& e = entries_[name];
  e.name = name;
  e.type = &type;
  e.folder = folder;
  type.declare(e.declaration);
}

void Registry::add_sheet(const std::string& part, std::string name, std::string text,
                         std::string path) {
  entries_[part].sheets.push_back({std::move(name), std::move(text), std::move(path)});
}

void Registry::add_faults(const std::string& part, std::string text, std::string path) {
  entries_[part].faults.push_back({part, std::move(text), std::move(path)});
}

void Registry::add_signs(const std::string& part, std::string text, std::string path) {
  entries_[part].signs.push_back({part, std::move(text), std::move(path)});
}

void Registry::set_checks(std::string text, std::string path) {
  checks_ = {{"checks", std::move(text), std::move(path)}};
}

void Registry::set_circumstances(std::string text, std::string path) {
  circumstances_ = {{"circumstances", std::move(text), std::move(path)}};
}

const Registry::Entry* Registry::find(const std::string& name) const {
  const auto it = entries_.find(name);
  return it == entries_.end() ? nullptr : &it->second;
}

}  // namespace sixty
