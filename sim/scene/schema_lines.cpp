#include "sim/scene/schema_lines.hpp"

#include "sim/scene/line_reader.hpp"
#include "sim/scene/part_reader.hpp"
#include "sim/scene/plan.hpp"

namespace sixty::schema {
namespace {

Json connection(const std::string& help) {
  Json json;
  json["description"] = help;
  json["type"] = {"string", "array"};
  json["pattern"] = kReferencePattern;
  json["items"] = {{"type", "string"}, {"pattern", kReferencePattern}};
  return json;
}

Json connections(const Declaration& declaration) {
  Json properties = Json::object();
  for (const NamedDecl& input : declaration.inputs) properties[input.name] = connection(input.help);
  for (const LinkDecl& link : declaration.taken) properties[link.name] = connection(link.help);
  return closed_object(std::move(properties), {});
}

Json terminal(const std::string& description) {
  return {{"description", description}, {"type", "string"}, {"pattern", kReferencePattern}};
}

Json joins(const Declaration& declaration) {
  Json properties = Json::object();
  for (const NamedDecl& t : declaration.terminals) properties[t.name] = terminal(t.help);
  return closed_object(std::move(properties), {});
}

// A name: an unquoted yes or no may be one.
Json name(const std::string& description, const std::string& pattern) {
  return {{"description", description}, {"type", {"string", "boolean"}}, {"pattern", pattern}};
}

Json notes() {
  Json json = text("What is worth knowing of this one, in a sentence or two.");
  json["maxLength"] = kMostNotes;
  return json;
}

Json any_map() { return {{"type", "object"}}; }

// What a place may change of a template. Which keys fit, the line's template decides.
Json changed_template(const std::vector<std::string>& part_types) {
  Json properties;
  properties["type"] = words(part_types, "Part type, in place of the line's.");
  properties["sheet"] = text("Data sheet that gives the values.");
  properties["set"] = any_map();
  properties["connect"] = any_map();
  properties["join"] = any_map();
  properties["notes"] = notes();
  return closed_object(std::move(properties), {});
}

Json nothing() { return {{"description", "Nothing hangs here."}, {"const", "none"}}; }

Json places(const std::string& description) {
  Json json;
  json["description"] = description;
  json["type"] = "array";
  json["items"] = reference("line_place");
  json["minItems"] = 1;
  return json;
}

Json line_place() {
  Json properties;
  properties["name"] = name("Name of the part that hangs here, with {n} where there are many.",
                            "^[A-Za-z][A-Za-z0-9_]*(\\{n\\}[A-Za-z0-9_]*)?$");
  properties["room"] = room();
  properties["length"] = value(place_length_field());
  properties["count"] = value(place_count_field());
  properties["first"] = value(place_first_field());
  properties["run"] = reference("changed_template");
  properties["each"]["anyOf"] = Json::array({nothing(), reference("changed_template")});
  properties["set"] = any_map();
  properties["branch"] = places("Places of a branch that begins here.");
  return closed_object(std::move(properties), {"name"});
}

Json line() {
  Json properties;
  properties["kind"] =
      words({"parallel", "series"}, "Whether parts hang across the line, or in its way.");
  properties["from"] = terminal("Where it begins.");
  properties["to"] = terminal("The other side; where a series loop ends.");
  properties["room"] = room();
  properties["run"] = reference("template");
  properties["each"] = reference("template");
  properties["ballast"] = reference("template");
  properties["places"] = places("Where it leads, in this order.");
  ParamDecl back = place_length_field();
  back.help = "Length of the last run of a series loop, from the last place home.";
  properties["back"] = value(back);
  return closed_object(std::move(properties), {"kind", "from", "to", "run", "each", "places"});
}

Json numbers(const std::vector<ParamDecl>& fields) {
  Json properties;
  std::vector<std::string> required;
  for (const ParamDecl& field : fields) {
    properties[field.name] = value(field);
    if (field.required) required.push_back(field.name);
  }
  return closed_object(std::move(properties), required);
}

/// One of the part type's own, or one of the owner's.
Json sheet_name(const Registry::Entry& entry) {
  const Json own = {{"type", "string"}, {"pattern", "^own_[A-Za-z0-9_]{1,36}$"}};
  if (entry.sheets.empty()) return own;
  Json json;
  json["anyOf"] = {words(names_of(entry.sheets), "Data sheet that gives the values."), own};
  return json;
}

}  // namespace

Json piece_properties(const Registry::Entry& entry) {
  Json properties;
  properties["type"] = {{"const", entry.name}};
  properties["sheet"] = sheet_name(entry);
  Json set = Json::object();
  for (const ParamDecl& decl : entry.declaration.params) set[decl.name] = value(decl);
  properties["set"] = closed_object(std::move(set), {});
  properties["connect"] = connections(entry.declaration);
  properties["notes"] = notes();
  return properties;
}

Json line_template(const Registry::Entry& entry) {
  Json properties = piece_properties(entry);
  properties["join"] = joins(entry.declaration);
  Json json = closed_object(std::move(properties), {"type"});
  json["description"] = entry.declaration.title;
  return json;
}

void define_lines(const std::vector<std::string>& part_types, Json& definitions) {
  definitions["changed_template"] = changed_template(part_types);
  definitions["line_place"] = line_place();
  definitions["line"] = line();
}

Json room() { return name("Room of the plan in which it stands.", kNamePattern); }

Json rooms() {
  Json json = named_map(numbers(room_fields()));
  json["description"] = "Each room's name and where it lies.";
  return json;
}

Json plan() {
  Json json = numbers(plan_fields());
  json["description"] = "How long wires are from room to room.";
  return json;
}

}  // namespace sixty::schema
