#include "solver/app/json.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace barwright::app {

struct Json::Writer {
  static nlohmann::ordered_json of(const Json& from) {
    switch (from.kind_) {
      case Kind::null:
        return nullptr;
      case Kind::boolean:
        return from.whole_ != 0;
      case Kind::whole:
        return from.whole_;
      case Kind::number:
        return from.number_;
      case Kind::text:
        return from.text_;
      case Kind::array: {
        auto out = nlohmann::ordered_json::array();
        for (const auto& item : from.items_) out.push_back(of(item));
        return out;
      }
      case Kind::object: {
        auto out = nlohmann::ordered_json::object();
        for (std::size_t i = 0; i < from.items_.size(); ++i)
          out.push_back({from.keys_[i], of(from.items_[i])});
        return out;
      }
    }
    return nullptr;
  }
};

struct Json::Reader {
  static Json of(const nlohmann::ordered_json& from) {
    if (from.is_null()) return {};
    if (from.is_boolean()) return from.get<bool>();
    if (from.is_number_integer()) return from.get<std::int64_t>();
    if (from.is_number()) return from.get<double>();
    if (from.is_string()) return from.get<std::string>();
    Json out;
    out.kind_ = from.is_array() ? Kind::array : Kind::object;
    for (const auto& [key, value] : from.items()) {
      if (from.is_object()) out.keys_.push_back(key);
      out.items_.push_back(of(value));
    }
    return out;
  }
};

Json::Json(std::initializer_list<Json> list) : kind_(Kind::array), items_(list) {
  const bool pairs = std::all_of(items_.begin(), items_.end(), [](const Json& one) {
    return one.kind_ == Kind::array && one.items_.size() == 2 && one.items_[0].kind_ == Kind::text;
  });
  if (!pairs) return;
  kind_ = Kind::object;
  std::vector<Json> entries = std::move(items_);
  items_.clear();
  for (auto& entry : entries) (*this)[entry.items_[0].text_] = std::move(entry.items_[1]);
}

std::optional<Json> Json::parse(std::string_view text) {
  constexpr int kDeepest = 100;  // deeper, and taking it apart could exhaust the stack
  bool deep = false;
  const auto watch = [&](int depth, nlohmann::ordered_json::parse_event_t,
                         nlohmann::ordered_json&) {
    deep = deep || depth > kDeepest;
    return !deep;
  };
  const auto parsed = nlohmann::ordered_json::parse(text, watch, false);
  if (deep || parsed.is_discarded()) return std::nullopt;
  return Reader::of(parsed);
}

Json Json::array() {
  Json out;
  out.kind_ = Kind::array;
  return out;
}

Json Json::object() {
  Json out;
  out.kind_ = Kind::object;
  return out;
}

Json& Json::operator[](const std::string& key) {
  kind_ = Kind::object;
  const auto found = std::find(keys_.begin(), keys_.end(), key);
  if (found != keys_.end()) return items_[static_cast<std::size_t>(found - keys_.begin())];
  keys_.push_back(key);
  return items_.emplace_back();
}

void Json::erase(const std::string& key) {
  const auto found = std::find(keys_.begin(), keys_.end(), key);
  if (found == keys_.end()) return;
  items_.erase(items_.begin() + (found - keys_.begin()));
  keys_.erase(found);
}

void Json::push_back(Json value) {
  kind_ = Kind::array;
  items_.push_back(std::move(value));
}

void Json::update(const Json& other) {
  for (std::size_t i = 0; i < other.items_.size(); ++i) (*this)[other.keys_[i]] = other.items_[i];
}

const Json* Json::find(std::string_view key) const {
  const auto found = std::find(keys_.begin(), keys_.end(), key);
  return found == keys_.end() ? nullptr : &items_[static_cast<std::size_t>(found - keys_.begin())];
}

std::string Json::dump(int indent) const {
  return Writer::of(*this).dump(indent, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace barwright::app
