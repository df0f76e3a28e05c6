#pragma once

#include <string>
#include <string_view>

namespace sixty::diagnose {

/// The text as it stands in XML or HTML, between tags and in quoted attributes: what has a meaning
/// there is written as a reference, and what may not stand there at all is left out. Source: W3C,
/// Extensible Markup Language (XML) 1.0, sections 2.2 and 2.4.
std::string escaped(std::string_view text);

}  // namespace sixty::diagnose
