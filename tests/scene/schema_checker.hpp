#pragma once

#include <nlohmann/json.hpp>
#include <regex>
#include <string>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include "sim/scene/yaml_document.hpp"

namespace sixty {

// An unquoted text as an editor understands it. Source: YAML 1.2.2, section 10.3.2, core schema.
inline nlohmann::json plain_scalar(const std::string& text) {
  static const std::regex integer("[-+]?[0-9]+");
  static const std::regex real("[-+]?(\\.[0-9]+|[0-9]+(\\.[0-9]*)?)([eE][-+]?[0-9]+)?");
  if (text == "true" || text == "false") return text == "true";
  if (std::regex_match(text, integer) && text.size() < 18) return std::stoll(text);
  if (text.size() < 30 && std::regex_match(text, real)) return std::strtod(text.c_str(), nullptr);
  return text;
}

inline nlohmann::json to_json(const YamlNode& node) {
  switch (node.kind) {
    case YamlNode::kScalar:
      return node.quoted ? nlohmann::json(node.scalar) : plain_scalar(node.scalar);
    case YamlNode::kList: {
      nlohmann::json list = nlohmann::json::array();
      for (const YamlNode& item : node.items) list.push_back(to_json(item));
      return list;
    }
    case YamlNode::kMap: {
      nlohmann::json map = nlohmann::json::object();
      for (const auto& [key, value] : node.entries) map[key.scalar] = to_json(value);
      return map;
    }
    case YamlNode::kNull:
      break;
  }
  return nullptr;
}

/// Holds files against a JSON Schema as an editor does.
class SchemaChecker {
 public:
  explicit SchemaChecker(const std::string& schema) : document_(nlohmann::json::parse(schema)) {
    valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
    parser.populateSchema(valijson::adapters::NlohmannJsonAdapter(document_), schema_);
  }

  // What the schema has against a tree; empty if nothing.
  std::string complaints(const nlohmann::json& tree) const {
    valijson::ValidationResults results;
    valijson::Validator validator(valijson::Validator::kStrongTypes);
    if (validator.validate(schema_, valijson::adapters::NlohmannJsonAdapter(tree), &results))
      return "";
    std::string text;
    for (valijson::ValidationResults::Error error; results.popError(error);) {
      for (const std::string& step : error.context) text += step;
      text += ": " + error.description + "\n";
    }
    return text;
  }

 private:
  nlohmann::json document_;
  valijson::Schema schema_;
};

}  // namespace sixty
