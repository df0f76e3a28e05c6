#include <utility>

#include "sim/scene/loader.hpp"
#include "sim/scene/scene_reader.hpp"
#include "sim/scene/schema_values.hpp"

namespace sixty {
namespace {

using schema::Json;
using schema::reference;

// `then` holds for maps in which `key` is `word`.
Json when(const std::string& key, const std::string& word, const std::string& then) {
  Json json;
  json["if"]["properties"][key]["const"] = word;
  json["if"]["required"] = {key};
  json["then"] = reference(then);
  return json;
}

Json connection(const std::string& help) {
  Json json;
  json["description"] = help;
  json["type"] = {"string", "array"};
  json["pattern"] = schema::kReferencePattern;
  json["items"] = {{"type", "string"}, {"pattern", schema::kReferencePattern}};
  return json;
}

Json connections(const Declaration& declaration, std::vector<std::string>& required) {
  Json properties = Json::object();
  for (const NamedDecl& input : declaration.inputs) properties[input.name] = connection(input.help);
  for (const LinkDecl& link : declaration.taken) {
    properties[link.name] = connection(link.help);
    if (!link.optional) required.push_back(link.name);
  }
  return schema::closed_object(std::move(properties), required);
}

Json part_schema(const Registry::Entry& entry) {
  Json properties;
  properties["type"] = {{"const", entry.name}};
  if (!entry.sheets.empty())
    properties["sheet"] =
        schema::words(names_of(entry.sheets), "Data sheet that gives the values.");
  Json set = Json::object();
  for (const ParamDecl& decl : entry.declaration.params) set[decl.name] = schema::value(decl);
  properties["set"] = schema::closed_object(std::move(set), {});
  std::vector<std::string> links;
  properties["connect"] = connections(entry.declaration, links);
  std::vector<std::string> required = {"type"};
  if (!links.empty()) required.push_back("connect");
  Json json = schema::closed_object(std::move(properties), required);
  json["description"] = entry.declaration.title;
  return json;
}

Json sheet_schema(const Registry::Entry& entry) {
  Json values = Json::object();
  for (const ParamDecl& decl : entry.declaration.params)
    values[decl.name] = schema::sheet_value(decl);
  Json properties;
  properties["sheet"] = {{"type", "string"}, {"pattern", schema::kNamePattern}};
  properties["part"] = {{"const", entry.name}};
  properties["title"] = schema::text("What it describes.");
  properties["values"] = schema::closed_object(std::move(values), {});
  properties["notes"] = schema::text("Anything worth knowing.");
  return schema::closed_object(std::move(properties), {"sheet", "part", "title", "values"});
}

// A map of which the word under `key` decides what else it holds.
Json chosen_by(const std::string& key, const std::string& prefix, const Registry& registry) {
  Json json;
  json["type"] = "object";
  json["required"] = {key};
  json["properties"][key] = schema::words(part_types(registry), "Part type.");
  json["allOf"] = Json::array();
  for (const auto& [name, entry] : registry.entries())
    json["allOf"].push_back(when(key, name, prefix + name));
  if (json["allOf"].empty()) json.erase("allOf");
  return json;
}

Json named_map(Json item) {
  Json json;
  json["type"] = "object";
  json["propertyNames"] = {{"pattern", schema::kNamePattern}};
  json["additionalProperties"] = std::move(item);
  return json;
}

Json parts_schema() {
  Json json = named_map(reference("part"));
  json["description"] = "Each part's name and what it is.";
  json["minProperties"] = 1;
  json["maxProperties"] = kMostParts;
  return json;
}

Json wires_schema() {
  Json net;
  net["type"] = "array";
  net["items"] = {{"type", "string"}, {"pattern", schema::kReferencePattern}};
  net["minItems"] = 2;
  net["uniqueItems"] = true;
  Json json = named_map(std::move(net));
  json["description"] = "Each net's name and the terminals that it joins.";
  return json;
}

Json script_schema() {
  Json line = {{"type", "string"}, {"pattern", "^at .*: "}};
  Json pair;
  pair["type"] = "object";
  pair["minProperties"] = 1;
  pair["maxProperties"] = 1;
  pair["propertyNames"] = {{"pattern", "^at "}};
  pair["additionalProperties"] = {{"type", "string"}};
  Json json;
  json["description"] = "What hands do, each as \"at TIME: part.command\" with its quantity.";
  json["type"] = "array";
  json["items"]["anyOf"] = Json::array({std::move(pair), std::move(line)});
  return json;
}

Json scene_properties() {
  const std::string time = "([T ][0-9]{1,2}:[0-9]{2}(:[0-9]{2}(\\.[0-9]+)?)?)?";
  Json json;
  json["scene"] = schema::text("Title of the scene.");
  json["start"] = {{"description", "Date and time at which it begins, 2026-01-05T00:00:00."},
                   {"type", "string"},
                   {"pattern", "^ *[0-9]{4}-[0-9]{2}-[0-9]{2}" + time + " *$"}};
  json["seed"] = {{"description", "Which of all possible installations of this kind it is."},
                  {"type", {"integer", "string"}},
                  {"pattern", "^(0|[1-9][0-9]*)$"},
                  {"minimum", 0}};
  json["spread"] = schema::value(
      quantity_field("spread", "1", 0, 1, "Share of the data sheets' tolerances that is drawn."));
  json["parts"] = parts_schema();
  json["wires"] = wires_schema();
  json["script"] = script_schema();
  json["notes"] = schema::text("Anything worth knowing.");
  return json;
}

}  // namespace

std::string scene_schema(const Registry& registry) {
  Json definitions = schema::sheet_definitions();
  definitions["scene"] = schema::closed_object(scene_properties(), {"scene", "start", "parts"});
  definitions["part"] = chosen_by("type", "part_", registry);
  definitions["data_sheet"] = chosen_by("part", "sheet_", registry);
  for (const auto& [name, entry] : registry.entries()) {
    definitions["part_" + name] = part_schema(entry);
    definitions["sheet_" + name] = sheet_schema(entry);
  }
  Json json;
  json["$schema"] = "http://json-schema.org/draft-07/schema#";
  json["title"] = "Scenes and data sheets";
  json["type"] = "object";
  json["if"]["required"] = {"sheet"};
  json["then"] = reference("data_sheet");
  json["else"] = reference("scene");
  json["definitions"] = std::move(definitions);
  return json.dump(2) + "\n";
}

}  // namespace sixty
