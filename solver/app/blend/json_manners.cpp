#include "solver/app/blend/json_manners.hpp"

namespace barwright::app {

Json json_manners(const jobs::MannersTold& told) {
  Json list = Json::array();
  for (const auto& one : told.manners) {
    Json manner = {
        {"name", one.manner->name}, {"rule", one.rule},         {"reason", one.manner->reason},
        {"mark", one.manner->mark}, {"state", word(one.state)}, {"dropped", one.dropped},
        {"price", nullptr},         {"open", one.open}};
    if (one.price)
      manner["price"] = {{"change", *one.price}, {"unit", one.unit}, {"proved", one.proved}};
    if (one.state == jobs::MannerTold::State::gave_way) manner["had_to"] = one.had_to;
    if (!one.let_in.empty()) {
      manner["let_in"] = one.let_in;
      manner["tried"] = one.tried;
    }
    list.push_back(std::move(manner));
  }
  return list;
}

}  // namespace barwright::app
