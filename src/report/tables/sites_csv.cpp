// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string>
#include <vector>

#include "report/tables/csv_cells.hpp"
#include "report/tables/site_cells.hpp"
#include "tidelot/report/report.hpp"

namespace tidelot {
namespace {

/// A value as a cell of its kind prints it.
struct Printer {
  cells::CellKind kind;
  std::string operator()(std::monostate) const { return ""; }
  std::string operator()(std::int64_t value) const { return fmt::format("{}", value); }
  std::string operator()(const cells::Figure& figure) const {
    return cells::number(figure.value, figure.decimals);
  }
  std::string operator()(const std::string& value) const {
    return kind == cells::CellKind::words ? cells::text(value) : value;
  }
};

std::string header(const Plan& plan) {
  std::vector<std::string> names;
  for (const cells::SiteCell& cell : cells::site_cells({}, plan)) {
    names.emplace_back(cell.column);
  }
  return fmt::format("{}\n", fmt::join(names, ","));
}

std::string row(const Site& site, const Plan& plan) {
  std::vector<std::string> printed;
  for (const cells::SiteCell& cell : cells::site_cells(site, plan)) {
    printed.push_back(std::visit(Printer{cell.kind}, cell.value));
  }
  return fmt::format("{}\n", fmt::join(printed, ","));
}

}  // namespace

std::string sites_csv(std::span<const Site> sites, const Plan& plan) {
  std::string all = header(plan);
  for (const Site& site : sites) {
    all += row(site, plan);
  }
  return all;
}

}  // namespace tidelot
