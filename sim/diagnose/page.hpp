#pragma once

#include <string>
#include <vector>

#include "sim/diagnose/next_check.hpp"

namespace sixty::diagnose {

/// What is told of one diagnosis on a page that can be printed.
struct Page {
  const Library& library;
  const std::vector<Observation>& observations;
  const Ranking& ranking;
  const std::vector<Proposal>& questions;
  const std::vector<Proposal>& checks;
};

/// The page in the spoken language, whole in itself, as HTML that is well-formed XML too: ranking
/// with what speaks for and against, the installation's plan with the suspects marked, what to ask
/// and check next with its cautions, and what it was found from.
std::string page_html(const Page& page);

}  // namespace sixty::diagnose
