#include <catch2/catch.hpp>
#include <memory>
#include <type_traits>

#include "oils/books/ledger.hpp"
#include "oils/books/shelf.hpp"
#include "oils/books/stock.hpp"

using namespace barwright;

namespace {

oils::Oil named(const std::string& name) {
  oils::Oil oil;
  oil.name = name;
  oil.synonyms = {name + " of the mill"};
  oil.form = oils::Form::wax;
  return oil;
}

template <typename From>
concept GivesSources = requires(From&& from) {
  std::forward<From>(from).sources();
};
template <typename From>
concept GivesShelf = requires(From&& from) {
  std::forward<From>(from).shelf();
};

}  // namespace

TEST_CASE("an oil that was looked up outlives the library it came from", "[lifetime]") {
  const oils::Oil* found = nullptr;
  const oils::Oil* again = nullptr;
  {
    auto library = std::make_unique<oils::Library>();
    library->add(named("quay wax"));
    found = library->find("quay wax");
    library->add(named("a wax before it"));  // moves what stands behind it
    library->add(named("zest wax"));
    again = library->find("quay wax");
  }
  CHECK(found == again);
  CHECK(found->name == "quay wax");
  CHECK(found->form == oils::Form::wax);
  CHECK(found->synonyms.front() == "quay wax of the mill");
}

TEST_CASE("an oil replaced in its library stays as it was for who looked it up", "[lifetime]") {
  oils::Library library;
  library.add(named("quay wax"));
  const oils::Oil& before = *library.find("quay wax");
  oils::Oil changed = named("quay wax");
  changed.form = oils::Form::free_acid;
  library.add(changed);
  CHECK(before.form == oils::Form::wax);
  CHECK(library.find("quay wax")->form == oils::Form::free_acid);
  CHECK(library.oils().size() == 1);
  library.add(named("quay wax"));
  CHECK(library.find("quay wax") == &before);  // equal records are kept once
}

TEST_CASE("the list of a library may outlive it", "[lifetime]") {
  // A loop over a temporary: every step would read freed memory did the list not hold its own.
  int seen = 0;
  for (const oils::Oil& oil : oils::Library::embedded().oils()) seen += oil.name.empty() ? 0 : 1;
  CHECK(seen == 89);
}

TEST_CASE("nothing is taken by reference out of a temporary", "[lifetime]") {
  STATIC_REQUIRE(GivesSources<const oils::Library&>);
  STATIC_REQUIRE_FALSE(GivesSources<oils::Library>);
  STATIC_REQUIRE(GivesShelf<const oils::Books&>);
  STATIC_REQUIRE_FALSE(GivesShelf<oils::Books>);
}
