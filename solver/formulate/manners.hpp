#pragma once

#include <span>
#include <string>
#include <vector>

#include "solver/formulate/formulation.hpp"
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

/// Returns which shipped bar takes the place of a bar in the hand: with lard where much of what is
/// at hand is animal fat, else the first plain one whose oils are all at hand.
std::string stand_in(const targets::Brief& brief, const Candidates& candidates);

/// Returns the manners in force for a brief, the first gives way last: not those it puts out of
/// force, nor those it says something of itself (an explicit limit always wins).
std::vector<KeptManner> manners_in_force(const targets::Brief& brief, const Candidates& candidates,
                                         const HeldTo& held);

/// Adds the manners to a formulation as limits of the house: never blamed, never among the maker's
/// wishes. "round shares" is the caller's, who sets the steps.
void add_manners(Formulation& out, const targets::Brief& brief, const Candidates& candidates,
                 const HeldTo& held, const targets::PropertyModel& model, const Assumed& assumed,
                 std::span<const KeptManner> kept);

/// Returns the rule of a manner with its figures in: "at most 6 oils", "wears not clearly faster
/// than yard bar".
std::string rule_words(const KeptManner& kept, const HeldTo& held);

}  // namespace barwright::formulate
