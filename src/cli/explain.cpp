// SPDX-License-Identifier: Apache-2.0
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "cli/commands.hpp"
#include "cli/explain_parts.hpp"
#include "cli/print.hpp"
#include "tidelot/core/error.hpp"
#include "tidelot/core/text.hpp"
#include "tidelot/plan/plan.hpp"
#include "tidelot/run.hpp"

namespace tidelot::cli {
namespace {

std::string csv_row(DayOfYear day, const DayTrace& d) {
  std::string row = format_month_day(day);
  const DayForcing& f = d.forcing;
  for (const double value :
       {f.temperature, f.salinity, f.attenuation, f.nitrogen, f.par_mol, f.day_length_h,
        d.f_temperature, d.f_salinity, d.f_light, d.f_nitrogen, d.f_density, d.growth_per_day,
        d.biomass_g_per_m, d.tissue_n, d.harvest_g_per_m}) {
    row += "," + shortest(value);
  }
  return row + "\n";
}

int print_csv(const Explanation& e) {
  print(
      "date,temperature,salinity,kd,nitrogen,par,day_length_h,f_temperature,f_salinity,f_light,"
      "f_nitrogen,f_density,growth_per_day,biomass_g_per_m,tissue_n,harvest_g_per_m\n");
  for (std::size_t i = 0; i < e.growth.days.size(); ++i) {
    print(csv_row(e.season.outplant + static_cast<int>(i), e.growth.days[i]));
  }
  if (e.growth.days.empty()) {
    std::fprintf(stderr, "tidelot: no season at this place: %s\n", e.reason.c_str());
  }
  return 0;
}

double part(std::string_view text, const std::string& whole) {
  double value = 0.0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) {
    throw Error(Fault::plan, "--at " + whole +
                                 ": is not a place; write longitude,latitude in degrees, "
                                 "for example --at -30.05,41.03");
  }
  return value;
}

std::string_view environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

}  // namespace

LonLat parse_lonlat(const std::string& text) {
  const std::size_t comma = text.find(',');
  const std::string_view view(text);
  const LonLat place{part(view.substr(0, comma), text),
                     part(comma == std::string::npos ? "" : view.substr(comma + 1), text)};
  if (std::abs(place.lon) > 360.0 || std::abs(place.lat) > 90.0) {
    throw Error(Fault::plan, "--at " + text +
                                 ": latitude beyond 90 or longitude beyond 360; the longitude "
                                 "comes first");
  }
  return place;
}

int explain(const std::string& path, LonLat at, ExplainAs form) {
  const Plan plan = read_plan(path);
  const Explanation e = tidelot::explain(plan, at);
  if (form == ExplainAs::csv) {
    return print_csv(e);
  }
  print(form == ExplainAs::json
            ? explain_json(plan, e)
            : explain_text(
                  plan, e,
                  glyphs_of(environment("LC_ALL"), environment("LC_CTYPE"), environment("LANG"))));
  return 0;
}

}  // namespace tidelot::cli
