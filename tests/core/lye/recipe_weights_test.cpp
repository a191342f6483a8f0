// Weights of a recipe that are none, or too little for the scale, and a recipe made larger.
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "core/lye/recipe.hpp"
#include "core/units/error.hpp"
#include "fats.hpp"
#include "said.hpp"

using namespace barwright::core;
using namespace barwright::tests;

namespace {

std::string refusal(const RecipeRequest& request) {
  return barwright::tests::refusal([&] { weigh(request); });
}

const std::string kTooSmall =
    ", is less than one step of the lye scale. Use a finer scale or a larger batch, or leave it "
    "out.";

}  // namespace

TEST_CASE("an oil has a weight, and one that the scale can show", "[recipe]") {
  auto request = plain_request();
  for (const double none : {0.0, -300.0, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
    INFO(none);
    request.oils[1].grams = none;
    CHECK(refusal(request) ==
          "The weight of 'coconut' is not above zero. Give it a weight, or take the line out.");
  }
  request.oils[1].grams = 0.4;
  CHECK(refusal(request) ==
        "coconut, 0.4 g, is less than the oils scale can show. Use a finer scale or a larger "
        "batch, or leave it out.");
  request.scales.oils.step = 0.1;
  CHECK(refusal(request) == "taken");
  CHECK(weigh(request).oils[1].grams == 0.4);
}

TEST_CASE("an acid has a weight too, be it none at all", "[recipe]") {
  auto request = plain_request();
  for (const double none : {-1.0, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
    INFO(none);
    request.acids = {{"citric acid", AcidForm::citric_anhydrous, none}};
    CHECK(refusal(request) == "The weight of 'citric acid' is not a weight. Give it in grams.");
  }
  request.acids[0].grams = 0;
  CHECK(refusal(request) == "taken");
  CHECK(weigh(request).acids[0].grams == 0);
  request.acids[0].grams = 0.5;
  CHECK(weigh(request).acids[0].grams == 0.5);
  request.acids[0].grams = 0.02;
  CHECK(refusal(request) == "citric acid, 0.02 g" + kTooSmall);
}

TEST_CASE("what brings fat or acid must show on the lye scale", "[recipe]") {
  auto request = plain_request();
  request.liquids = {whole_milk(0.03)};
  CHECK(refusal(request) == "whole milk, 0.03 g" + kTooSmall);
  Addition sour{"sour honey", 0.04};
  sour.acid = Acid{"", AcidForm::lactic, 0.1, 0.9};
  request.liquids.clear();
  request.additives = {sour};
  CHECK(refusal(request) == "sour honey, 0.04 g" + kTooSmall);
  request.additives[0].grams = 0.1;
  CHECK(refusal(request) == "taken");
}

TEST_CASE("a recipe made larger is larger in every line", "[recipe]") {
  auto request = plain_request();
  request.other_fats = {shea(40)};
  request.acids = {{"citric acid", AcidForm::citric_anhydrous, 12}};
  request.liquids = {whole_milk(50)};
  request.additives = {sodium_lactate_powder(20)};
  const auto twice = scaled(request, 2);
  CHECK(twice.oils[0].grams == 1200);
  CHECK(twice.oils[2].grams == 200);
  CHECK(twice.other_fats[0].grams == 80);
  CHECK(twice.acids[0].grams == 24);
  CHECK(twice.liquids[0].grams == 100);
  CHECK(twice.additives[0].grams == 40);
  CHECK(twice.scales.lye.step == request.scales.lye.step);
}

TEST_CASE("a recipe is made neither nothing, nor endless, nor of no oils", "[recipe]") {
  const auto request = plain_request();
  const std::string nothing = "A recipe cannot be scaled to nothing. Give a batch above zero.";
  for (const double none : {0.0, -1.0, static_cast<double>(NAN), static_cast<double>(INFINITY)}) {
    INFO(none);
    CHECK(barwright::tests::refusal([&] { scaled(request, none); }) == nothing);
    CHECK(barwright::tests::refusal([&] { scaled_to_oils(request, none); }) == nothing);
  }
  const std::string no_oils = "The recipe has no oils. Give at least one oil with a weight.";
  auto empty = request;
  empty.oils = {olive(0), coconut(0)};
  CHECK(barwright::tests::refusal([&] { scaled_to_oils(empty, 1000); }) == no_oils);
  empty.oils.clear();
  CHECK(barwright::tests::refusal([&] { scaled_to_oils(empty, 1000); }) == no_oils);
  CHECK(refusal(empty) == no_oils);
}
