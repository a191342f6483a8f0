#include "solver/app/blend/json_manners.hpp"

namespace barwright::app {

Json json_manners(const jobs::BlendReport& report) {
  Json list = Json::array();
  for (const auto& one : report.manners.manners) {
    Json manner = {
        {"name", one.manner->name}, {"rule", one.rule},         {"reason", one.manner->reason},
        {"mark", one.manner->mark}, {"state", word(one.state)}, {"dropped", one.dropped},
        {"price", nullptr}};
    if (one.price)
      manner["price"] = {{"change", *one.price}, {"unit", one.unit}, {"proved", one.proved}};
    list.push_back(std::move(manner));
  }
  return list;
}

}  // namespace barwright::app
