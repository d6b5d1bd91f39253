// SPDX-License-Identifier: Apache-2.0
#include "plan/section.hpp"

#include <fmt/format.h>

#include <map>
#include <stdexcept>

#include "plan/key_check.hpp"
#include "plan/key_table.hpp"
#include "plan/node_text.hpp"
#include "plan/own_boxes.hpp"
#include "plan/plan_file.hpp"
#include "plan/toml_place.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/plan/file_place.hpp"

namespace tidelot::planfile {
namespace {

/// The defaults of the list of keys as TOML values, read once.
const toml::node* default_of(const Key& key) {
  static const std::map<const Key*, toml::table> kDefaults = [] {
    std::map<const Key*, toml::table> read;
    for (const Key& each : keys()) {
      if (!each.fallback.empty()) {
        read.emplace(&each, toml::parse(fmt::format("value = {}", each.fallback)));
      }
    }
    return read;
  }();
  const auto found = kDefaults.find(&key);
  return found == kDefaults.end() ? nullptr : found->second.get("value");
}

/// The number of a node that check_keys has passed.
double number_of(const toml::node& node) { return finite_number(node).value(); }

const toml::node& needed(const toml::node* node, const std::string& path, std::string_view key) {
  if (!node) {
    throw std::logic_error(fmt::format("{}.{} has neither a value nor a default", path, key));
  }
  return *node;
}

}  // namespace

void Reading::record(std::string key, std::string json, bool given, std::string_view basis) {
  plan.keys.push_back({std::move(key), std::move(json), given, std::string(basis)});
}

Section::Section(Reading& reading, const std::string& path)
    : Section(reading, reading.root.at_path(path).as_table(), path) {}

Section::Section(Reading& reading, const toml::table* table, std::string path)
    : reading_(reading), table_(table), path_(std::move(path)), called_(path_) {}

Section::Section(Reading& reading, const toml::array& tables, std::string_view name,
                 std::size_t index)
    : Section(reading, tables.get_as<toml::table>(index), fmt::format("{}[{}]", name, index)) {
  called_ = called_in(name, index, *table_);
}

bool Section::given(std::string_view key) const { return table_ && table_->contains(key); }

const toml::node* Section::take(std::string_view key) {
  const Key* stated = find_key(path_, key);
  if (!stated) {
    throw std::logic_error(fmt::format("{}.{} is not in the list of keys", path_, key));
  }
  const bool is_given = given(key);
  const toml::node* node = is_given ? table_->get(key) : default_of(*stated);
  if (node) {
    reading_.record(path_.empty() ? std::string(key) : fmt::format("{}.{}", path_, key),
                    json_of(*node), is_given, is_given ? "" : stated->basis);
  }
  return node;
}

std::string Section::text(std::string_view key) {
  const toml::node* node = take(key);
  return node ? node->value_or(std::string()) : std::string();
}

double Section::number(std::string_view key) { return number_of(needed(take(key), path_, key)); }

std::int64_t Section::whole(std::string_view key) { return static_cast<std::int64_t>(number(key)); }

std::optional<double> Section::maybe_number(std::string_view key) {
  const toml::node* node = take(key);
  return node ? finite_number(*node) : std::nullopt;
}

std::optional<DayOfYear> Section::maybe_day(std::string_view key) {
  const toml::node* node = take(key);
  return node ? parse_month_day(node->value_or(std::string())) : std::nullopt;
}

std::optional<FileRef> Section::maybe_file(std::string_view key) {
  const toml::node* node = take(key);
  if (!node) {
    return std::nullopt;
  }
  return file_named(key, node->value_or(std::string()));
}

void Section::check_address(std::string_view key, const std::string& address) const {
  if (address.find_first_of("@?#") != std::string::npos) {
    // The address itself is not told: what it hides would stand in a log.
    fail(key,
         "holds an address with a name, a password or a query (@, ?, #): a plan is handed "
         "on and stands in run.json, so no secret may be in it; fetch the file and name the "
         "copy");
  }
  if (!reading_.plan.allow.network) {
    fail(key,
         fmt::format("= \"{}\": the network is not asked; fetch the file and name the copy, or "
                     "allow it with [run] allow = [\"network\"]",
                     address));
  }
}

FileRef Section::file_named(std::string_view key, const std::string& written) const {
  FileRef file;
  file.written = written;
  if (is_address(written)) {
    check_address(key, written);
    file.path = written;
    file.remote = true;
    return file;
  }
  file.path = reading_.folder / written;
  if (!reading_.plan.allow.outside) {
    file.within = reading_.folder;
  }
  if (!file.within.empty() && !lies_in(file.path, file.within)) {
    fail(key, fmt::format("= \"{}\": leads out of the plan's folder; move the file in, or allow it "
                          "with [run] allow = [\"outside\"]",
                          written));
  }
  return file;
}

FileRef Section::file(std::string_view key) {
  auto file = maybe_file(key);
  return file ? *std::move(file)
              : throw std::logic_error(fmt::format("{}.{} names no file", path_, key));
}

std::vector<double> Section::numbers(std::string_view key) {
  const toml::node& node = needed(take(key), path_, key);
  if (!node.is_array()) {
    return {number_of(node)};
  }
  std::vector<double> out;
  for (const toml::node& each : *node.as_array()) {
    out.push_back(number_of(each));
  }
  return out;
}

std::vector<std::string> Section::words(std::string_view key) {
  std::vector<std::string> out;
  for (const toml::node& each : *needed(take(key), path_, key).as_array()) {
    out.push_back(each.value_or(std::string()));
  }
  return out;
}

Monthly Section::twelve(std::string_view key) {
  const std::vector<double> values = numbers(key);
  Monthly out{};
  for (std::size_t i = 0; i < out.size(); ++i) {
    out[i] = values.at(i);
  }
  return out;
}

Curve Section::curve(std::string_view key) {
  std::vector<Curve::Point> points;
  for (const toml::node& each : *needed(take(key), path_, key).as_array()) {
    const toml::array& pair = *each.as_array();
    points.push_back({number_of(*pair.get(0)), number_of(*pair.get(1))});
  }
  return Curve(std::move(points));
}

std::vector<std::array<LonLat, 4>> Section::boxes(std::string_view key) {
  std::vector<std::array<LonLat, 4>> out;
  for (const toml::array* box : boxes_in(needed(take(key), path_, key))) {
    std::array<LonLat, 4>& corners = out.emplace_back();
    for (std::size_t i = 0; i < corners.size(); ++i) {
      const toml::array& corner = *box->get(i)->as_array();
      corners[i] = {number_of(*corner.get(0)), number_of(*corner.get(1))};
    }
  }
  return out;
}

std::vector<Section::Judgement> Section::judgements(std::string_view key) {
  std::vector<Judgement> out;
  for (const toml::node& each : *needed(take(key), path_, key).as_array()) {
    const toml::array& one = *each.as_array();
    out.push_back({one.get(0)->value_or(std::string()), one.get(1)->value_or(std::string()),
                   number_of(*one.get(2))});
  }
  return out;
}

std::string Section::placed(std::string_view key, const std::string& what) const {
  const toml::source_position start{1, 1};
  toml::source_region place{start, start, nullptr};
  if (table_) {
    place = given(key) ? table_->get(key)->source() : table_->source();
  }
  return at_place(reading_.where, place, fmt::format("{}.{} {}", called_, key, what));
}

void Section::fail(std::string_view key, const std::string& what) const {
  throw Error(Fault::plan, placed(key, what));
}

}  // namespace tidelot::planfile
