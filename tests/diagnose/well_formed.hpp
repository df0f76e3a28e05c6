#pragma once

#include <string>

namespace sixty::diagnose {

/// What is wrong with a text as XML: tags that do not match, attributes without quotes, references
/// that XML does not know, signs that may not stand there. Empty: it is well-formed, as far as
/// that goes.
std::string what_is_malformed(const std::string& text);

}  // namespace sixty::diagnose
