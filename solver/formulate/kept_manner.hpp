#pragma once

#include <cstddef>
#include <string>

#include "solver/formulate/known_bar.hpp"
#include "targets/model/manners.hpp"

namespace barwright::formulate {

/// A manner in force, and how far it gives way.
struct KeptManner {
  const targets::Manner* manner = nullptr;
  std::size_t given = 0;  ///< levels given way by
  bool fixed = false;     ///< never gives way: a claim of the maker's own bar
  std::string let_in;     ///< own oils: one from outside that may come in; empty: none

  std::size_t levels() const { return manner->levels.empty() ? 1 : manner->levels.size(); }
  bool dropped() const { return given >= levels(); }
  /// Returns the figure it is kept at, in the unit of its kind; 0 for one without figures.
  double level() const;
};

/// The bar that what is not named is held to: the maker's own, or a plain one in its place.
struct HeldTo {
  KnownBar bar;
  bool in_hand = false;  ///< the maker's own
};

}  // namespace barwright::formulate
