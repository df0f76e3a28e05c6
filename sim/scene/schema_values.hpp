#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "sim/part/declaration.hpp"

namespace sixty::schema {

/// Keeps the order in which keys were put in, so that a schema is the same text every time.
using Json = nlohmann::ordered_json;

/// Names of parts, nets and data sheets; "part.something".
constexpr const char* kNamePattern = "^[A-Za-z][A-Za-z0-9_]{0,39}$";
constexpr const char* kReferencePattern = "^[^. ]+\\.[^. ]+$";

/// Any text: an unquoted number or yes/no is one too.
Json text(const std::string& description);
/// A map with exactly these keys.
Json closed_object(Json properties, const std::vector<std::string>& required);
/// A map of whatever names to items of one kind.
Json named_map(Json item);
/// One of a list of words.
Json words(const std::vector<std::string>& choices, const std::string& description);

/// Yes or no; an editor may understand the words as truth values.
Json yes_or_no(const std::string& description);
Json list_of(Json items);

/// What check_value() takes for a parameter.
Json value(const ParamDecl& decl);
/// What a data sheet may say of a parameter; refers to sheet_definitions().
Json sheet_value(const ParamDecl& decl);
/// What the values of all data sheets have in common.
Json sheet_definitions();
/// "#/definitions/NAME" as a schema.
Json reference(const std::string& name);

}  // namespace sixty::schema
