#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "solver/formulate/candidate.hpp"
#include "solver/formulate/kept_manner.hpp"
#include "targets/brief/brief.hpp"

namespace barwright::formulate {

/// Returns whether an oil carries a tag, or may.
bool carries(const oils::Oil& oil, const std::string& tag);
bool carries_any(const oils::Oil& oil, std::span<const std::string> tags);

/// Returns an oil's share in a bar, a fraction; 0: it has none.
double share_in(const KnownBar& bar, const std::string& oil);

/// Returns the maker's own limit on an oil, or null.
const targets::OilLimit* limit_of(const targets::OilRules& rules, const std::string& oil);

/// Returns whether the maker named this oil as one to use.
bool asked_for(const targets::Brief& brief, const std::string& oil);

/// A candidate of a family that is out, and how much of it may stay, a fraction.
struct FamilyMember {
  std::size_t oil = 0;
  double most = 0;
};
/// Returns the candidates that go with the oils a brief takes out.
std::vector<FamilyMember> family_of(const targets::Brief& brief, const Candidates& candidates,
                                    const HeldTo& held, const targets::Manner& manner);

/// Returns the candidates that neither the shelf, a price nor the manner's list says are to be had.
std::vector<std::size_t> rare_oils(const targets::Brief& brief, const Candidates& candidates,
                                   const HeldTo& held, const targets::Manner& manner);

/// Returns the candidates that are neither in the bar in the hand nor named as ones to use.
std::vector<std::size_t> other_oils(const targets::Brief& brief, const Candidates& candidates,
                                    const HeldTo& held);

}  // namespace barwright::formulate
