#include "sim/scene/schema_values.hpp"

#include "sim/base/units.hpp"
#include "sim/scene/values.hpp"

namespace sixty::schema {
namespace {

// The strict grammar of quantities; which unit fits, only the loader knows.
const std::string kNumber = " *[+-]?(0|[1-9][0-9]*)(\\.[0-9]+)?([eE][+-]?[0-9]{1,4})?";
const std::string kUnit = " ?([^0-9 .,_:+-][^ ]*|1/[^ ]+)";

// A field that takes a bare number: one without a dimension, or of things counted.
bool takes_bare_number(const std::string& unit) {
  Diagnostic ignored;
  return parse_quantity("1", unit, ignored).has_value();
}

std::string described(const ParamDecl& decl) {
  const std::string head = decl.help.empty() ? "" : decl.help + " ";
  return head + "Write " + expectation(decl) + ".";
}

Json quantity(const std::string& unit, const std::string& description) {
  const bool bare = takes_bare_number(unit);
  Json json;
  if (!description.empty()) json["description"] = description;
  json["type"] = bare ? Json({"number", "string"}) : Json("string");
  json["pattern"] = "^" + kNumber + (bare ? "(" + kUnit + ")?" : kUnit) + " *$";
  return json;
}

// Where a number may stand without its unit, it is one in SI.
Json declared_quantity(const ParamDecl& decl) {
  Json json = quantity(decl.unit, described(decl));
  if (decl.step > 0 && takes_bare_number(decl.unit)) json["multipleOf"] = decl.step;
  return json;
}

Json count(const ParamDecl& decl) {
  Json json;
  json["description"] = described(decl);
  json["type"] = {"integer", "string"};
  json["pattern"] = "^[+-]?(0|[1-9][0-9]*)$";
  json["minimum"] = static_cast<std::int64_t>(decl.least);
  json["maximum"] = static_cast<std::int64_t>(decl.most);
  return json;
}

Json flag(const ParamDecl& decl) {
  Json json;
  json["description"] = described(decl);
  json["enum"] = {true, false, "yes", "no", "true", "false"};
  return json;
}

Json list_of(Json items, const std::string& description) {
  Json json;
  json["description"] = description;
  json["type"] = "array";
  json["items"] = std::move(items);
  return json;
}

Json range(const std::string& unit) {
  Json json = list_of(quantity(unit, ""), "Least and most that is met with.");
  json["minItems"] = 2;
  json["maxItems"] = 2;
  return json;
}

Json record(const ParamDecl& decl) {
  Json fields = Json::object();
  std::vector<std::string> required;
  for (const ParamDecl& field : decl.fields) {
    fields[field.name] = value(field);
    if (field.required) required.push_back(field.name);
  }
  return closed_object(std::move(fields), required);
}

}  // namespace

Json text(const std::string& description) {
  Json json;
  if (!description.empty()) json["description"] = description;
  json["type"] = {"string", "number", "boolean"};
  return json;
}

Json closed_object(Json properties, const std::vector<std::string>& required) {
  Json json;
  json["type"] = "object";
  json["properties"] = std::move(properties);
  if (!required.empty()) json["required"] = required;
  json["additionalProperties"] = false;
  return json;
}

Json named_map(Json item) {
  Json json;
  json["type"] = "object";
  json["propertyNames"] = {{"pattern", kNamePattern}};
  json["additionalProperties"] = std::move(item);
  return json;
}

Json yes_or_no(const std::string& description) {
  return Json{{"description", description}, {"enum", {"yes", "no", true, false}}};
}

Json list_of(Json items) { return Json{{"type", "array"}, {"items", std::move(items)}}; }

Json words(const std::vector<std::string>& choices, const std::string& description) {
  Json json;
  json["description"] = description;
  for (const std::string& choice : choices) {
    json["enum"].push_back(choice);
    // Unquoted, an editor takes it for a number.
    const Json number = Json::parse(choice, nullptr, false);
    if (number.is_number()) json["enum"].push_back(number);
  }
  return json;
}

Json value(const ParamDecl& decl) {
  switch (decl.kind) {
    case ParamKind::kQuantity:
      return declared_quantity(decl);
    case ParamKind::kCount:
      return count(decl);
    case ParamKind::kFlag:
      return flag(decl);
    case ParamKind::kChoice:
      return words(decl.choices, decl.help);
    case ParamKind::kText:
      break;
    case ParamKind::kTexts:
      return list_of(text(""), decl.help);
    case ParamKind::kRecords:
      return list_of(record(decl), decl.help);
  }
  return text(decl.help);
}

Json sheet_value(const ParamDecl& decl) {
  Json fields;
  std::vector<std::string> required = {"value", "source"};
  fields["value"] = value(decl);
  if (decl.kind == ParamKind::kQuantity) required.push_back("range");
  if (decl.kind == ParamKind::kQuantity || decl.kind == ParamKind::kCount)
    fields["range"] = reference(takes_bare_number(decl.unit) ? "number_range" : "range");
  if (decl.kind == ParamKind::kQuantity && decl.step == 0)
    fields["tolerance"] = reference("tolerance");
  fields["source"] = reference("source");
  return closed_object(std::move(fields), required);
}

Json sheet_definitions() {
  Json definitions;
  definitions["range"] = range("V");
  definitions["number_range"] = range("1");
  definitions["tolerance"] =
      quantity("1", "How far pieces stray: a share in %, or a difference in the value's unit.");
  definitions["source"] = text("Where the value comes from.");
  return definitions;
}

Json reference(const std::string& name) { return {{"$ref", "#/definitions/" + name}}; }

}  // namespace sixty::schema
