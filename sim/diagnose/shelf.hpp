#pragma once

#include <string>

#include "sim/diagnose/check.hpp"
#include "sim/diagnose/library.hpp"

namespace sixty::diagnose {

/// Data that a diagnosis needs besides the scene.
struct Books {
  /// Errors: reported, at their places in the files. Order: the registry outlives it.
  Books(const Registry& registry, Mistakes& mistakes)
      : signs(registry, mistakes), faults(registry, mistakes), checks(registry, mistakes) {}
  SignBook signs;
  FaultBook faults;
  CheckBook checks;
};

/// Where libraries are kept, to be found again by every program of the same build.
class Shelf {
 public:
  /// In `sixtybeats` in the folder that was chosen, or else in .cache in the user's home; made if
  /// need be. Source: XDG Base Directory Specification. Where there can be none, nothing is kept.
  explicit Shelf(const std::string& chosen);

  /// Fills a library that has just been opened. Returns whether it was there.
  bool find(Library& library, const LibraryPlan& plan) const;
  /// Keeps one that has been filled. Errors: false, the reason in `error`.
  bool keep(const Library& library, const LibraryPlan& plan, std::string& error) const;
  /// The file of one; empty where nothing can be kept.
  std::string path_of(const Library& library, const LibraryPlan& plan) const;

 private:
  std::string folder_;
};

}  // namespace sixty::diagnose
