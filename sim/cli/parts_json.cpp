#include <nlohmann/json.hpp>

#include "sim/cli/param_text.hpp"
#include "sim/cli/parts_view.hpp"
#include "sim/cli/sheet_view.hpp"

namespace sixty::cli {
namespace {

using Json = nlohmann::ordered_json;

// Name and version of the form of `parts --json`.
constexpr const char* kPartsFormat = "sixtybeats-parts/1";

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

Json param_json(const ParamDecl& param) {
  const bool bounded = param.kind == ParamKind::kQuantity || param.kind == ParamKind::kCount;
  Json json;
  json["name"] = param.name;
  json["kind"] = kind_text(param.kind);
  json["unit"] = text_or_null(param.unit);
  json["least"] = bounded ? Json(param.least) : Json(nullptr);
  json["most"] = bounded ? Json(param.most) : Json(nullptr);
  json["step"] = param.step > 0 ? Json(param.step) : Json(nullptr);
  json["choices"] = param.choices;
  json["required"] = param.required;
  json["default"] = text_or_null(default_text(param));
  json["source"] = text_or_null(param.source);
  json["help"] = param.help;
  if (param.kind != ParamKind::kRecords) return json;
  json["fields"] = Json::array();
  for (const ParamDecl& field : param.fields) json["fields"].push_back(param_json(field));
  return json;
}

Json named_json(const std::vector<NamedDecl>& declared, bool with_unit) {
  Json list = Json::array();
  for (const NamedDecl& d : declared) {
    Json json;
    json["name"] = d.name;
    if (with_unit) json["unit"] = text_or_null(d.unit);
    json["help"] = d.help;
    list.push_back(std::move(json));
  }
  return list;
}

Json commands_json(const std::vector<CommandDecl>& declared) {
  Json list = Json::array();
  for (const CommandDecl& d : declared) {
    Json json;
    json["name"] = d.name;
    json["unit"] = d.argument ? Json(d.argument->unit) : Json(nullptr);
    json["help"] = d.help;
    json["argument"] = d.argument ? param_json(*d.argument) : Json(nullptr);
    list.push_back(std::move(json));
  }
  return list;
}

Json links_json(const std::vector<LinkDecl>& declared) {
  Json list = Json::array();
  for (const LinkDecl& d : declared) {
    list.push_back(
        Json{{"name", d.name}, {"kind", d.kind}, {"optional", d.optional}, {"help", d.help}});
  }
  return list;
}

Json events_json(const std::vector<EventDecl>& declared) {
  Json list = Json::array();
  for (const EventDecl& d : declared) list.push_back(Json{{"name", d.name}, {"help", d.help}});
  return list;
}

Json sheet_json(const SheetText& text) {
  const SheetView sheet = view_of(text);
  Json values = Json::object();
  for (const SheetLine& line : sheet.values) {
    Json& json = values[line.name];
    json["value"] = line.value;
    json["range"] = line.range.empty() ? Json(nullptr) : Json(line.range);
    json["tolerance"] = text_or_null(line.tolerance);
    json["source"] = text_or_null(line.source);
  }
  return Json{
      {"name", sheet.name}, {"title", sheet.title}, {"path", sheet.path}, {"values", values}};
}

Json part_json(const Registry::Entry& part) {
  const Declaration& d = part.declaration;
  Json json;
  json["name"] = part.name;
  json["title"] = d.title;
  json["help"] = d.help;
  json["values"] = Json::array();
  for (const ParamDecl& param : d.params) json["values"].push_back(param_json(param));
  json["terminals"] = named_json(d.terminals, false);
  json["inputs"] = named_json(d.inputs, false);
  json["outputs"] = named_json(d.outputs, false);
  json["offers"] = links_json(d.offered);
  json["takes"] = links_json(d.taken);
  json["commands"] = commands_json(d.commands);
  json["readings"] = named_json(d.readings, true);
  json["events"] = events_json(d.events);
  json["sheets"] = Json::array();
  for (const SheetText& sheet : part.sheets) json["sheets"].push_back(sheet_json(sheet));
  return json;
}

}  // namespace

std::string parts_json(const std::vector<const Registry::Entry*>& parts) {
  Json whole;
  whole["format"] = kPartsFormat;
  whole["parts"] = Json::array();
  for (const Registry::Entry* part : parts) whole["parts"].push_back(part_json(*part));
  return whole.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace sixty::cli
