// SPDX-License-Identifier: Apache-2.0
#include "tidelot/plan/plan.hpp"

namespace tidelot {
namespace {

constexpr std::string_view kStarter =
    R"toml(# A plan for tidelot: one bay, one crop, one season. Change what is yours, then run
#   tidelot check plan.toml     opens every file and says what it found
#   tidelot scout plan.toml     makes the maps, the ranked sites and the report
# Lines that begin with # are left out; take the # away to use a key and to make its value your own. A
# key that is left out takes the value shown here, unless it says "needed"; the report lists what was
# taken so. Files are named relative to this one. Keys that carry a unit end in it (_m, _ha, _days).

title = "My bay"                            # needed; stands on every sheet

[area]
bounds = [-30.10, 41.00, -30.02, 41.06]     # needed: west, south, east, north; degrees, WGS 84
# outline = "bay.geojson"                   # only the water inside this polygon; may stand for bounds
cell_m = 10.0                               # needed: side of a map cell, metres
# crs    = "auto"                           # auto: UTM zone of the middle; else a metric system, "EPSG:32626"
# edge   = "half"                           # value at the edge of data: "half" of the neighbours' weight, "full", "any"

[depth]
file     = "depth.tif"                      # needed: a raster, a mesh, soundings or a chart
# variable = "elevation"                    # where a NetCDF file has more than one
# layer    = "SOUNDG"                       # where a chart has more than one
# field    = "depth"                        # where soundings have more than one column of numbers
# crs      = "EPSG:32626"                   # where the file states no reference system
# longest_edge_m = 60                       # between soundings further apart nothing is known
positive = "down"                           # needed: "down" for depths, "up" for elevations
unit     = "m"                              # m, ft, fathom; may be left out where the file says it
datum    = "MLLW"                           # needed: the zero of the depths, printed beside every depth
# low_water_m   = 0.0                       # low water above that zero, m (negative: below), or a raster;
                                            # needed unless the datum is a low-water one (MLLW, MLW, LAT)
# tidal_range_m = 2.1                       # low water to high water, m: an assumption, set your bay's own
# lowest_tide_m = -0.4                      # lowest predicted tide from low water, m: an assumption, too
# error_m = 0.3                             # one standard deviation of the depths, m: an assumption, too
# Several files instead of file, the most trusted first; each with any of the keys above, too:
#   [[depth.sources]]
#   name = "survey 2021"
#   file = "survey.xyz"
#   feather_m = 50                          over so much of its edge it goes over into the next (0)

# [land]                                    # land whatever the depth layer says
# file   = "shore.gpkg"                     # polygons of the land, or lines that close
# inside = "land"                           # the shapes are land; "water": they are the water

# Each of the five needs ONE of
#   file = "name.tif"         one band, or twelve from January to December
#   file = "name_{month}.tif" twelve files, 01 to 12
#   monthly = [12 numbers]    January to December, the same everywhere
#   constant = 1.0            the same all year and everywhere (a poor guess for all but current)
#   stations = "name.csv"     readings at places, spread through the water, never over land; columns
#                             lon, lat, date (2023-01-20, 2023/01/20, 20-Jan-2023 or 20 Jan 2023),
#                             value, and unit, station, depth, time where they are told; downloads
#                             of water-quality portals are recognised
# With stations:
#   station_file = "places.csv"        where the stations lie, when the table does not say
#   characteristic = "Salinity"        which one, where the table has several
#   depth_max_m = 2.0                  deeper readings are left out (judgement)
#   power = 2.0                        weight of a place = (distance^2 + nugget_m^2)^(-power/2)
#   nugget_m = 50.0                    nearer than this, readings stand for the same water (judgement)
#   snap_m = 250.0                     a station on land belongs to water at most this far off (judgement)
#   [water.salinity.columns]           headers of your own, after the other keys of the property:
#   value = "PSAL"                     lon, lat, date, value, unit, depth, depth_unit, level, time,
#                                      timezone, qualifier, activity, medium, status, station,
#                                      characteristic, fraction, speciation, detection, limit,
#                                      limit_unit, datum
# error is one standard deviation in the unit; it feeds the uncertainty.
[water.temperature]
file  = "temperature.tif"
# variable = "sst"                          # where a NetCDF file has more than one
# steps = "auto"                            # of a time axis: "monthly" or "daily" values; auto: as it comes
unit  = "degC"                              # degC, K or degF
# error = 0.8

[water.salinity]
file = "salinity.tif"
unit = "psu"                                # practical salinity

[water.light]
measure = "kd"                              # "kd": light lost per metre, 1/m; "secchi": Secchi depth, m;
                                            # "turbidity": NTU; "kd490": at 490 nm, from a satellite, 1/m
#   secchi_relation = "auto"                # with secchi; or poole-atkins-1929, holmes-1970, devlin-2008, montes-hugo-2005
#   turbidity_intercept = 0.4               # with turbidity: light lost, 1/m = this
#   turbidity_slope = 0.1                   # + this x NTU, both from your own bay
file    = "kd_{month}.tif"
unit    = "1/m"

[water.nitrogen]
file = "nitrogen.tif"                       # dissolved: nitrate + nitrite + ammonium
unit = "umol/L"                             # umol/L or "mg/L as N"; no default
# nh4_share = 0.4                           # share of ammonium in it, 0 to 1 (judgement)
#   or [water.nitrogen.nitrate] and [water.nitrogen.ammonium], each with a source of its own

[water.current]
file = "current.tif"
unit = "m/s"                                # m/s, cm/s, knot
# Instead of a speed, two variables of a NetCDF file:
#   eastward = "uo"
#   northward = "vo"
# direction = 45                            # where it runs, degrees from true north (or a raster):
                                            # sites then lie along it

[season]
# gear_in  = "05-01"                        # the permit's window, month-day; both or neither
# gear_out = "11-15"
# daily = "mean"                            # months to days: "mean" keeps each month's mean, "linear" joins the middles

[sun]
# sunshine = 0.5                            # share of possible sunshine, 0 to 1: one number or twelve (judgement)
# file = "radiation.nc"                     # instead of sunshine: a layer of global radiation
# variable = "rsds"
# unit = "MJ m-2 d-1"                       # of that layer; or W m-2

# One [[closed]] for each place where no gear may go; 24 at most. Take the # away.
# [[closed]]
# name      = "eelgrass beds"               # needed, each its own
# file      = "closed.gpkg"                 # needed: polygons, lines or points
# layer     = "eelgrass"                    # where the file has more than one
# where     = "status = 'mapped'"           # only these features
# setback_m = 30.0                          # distance to keep from it, m; 0 where left out
# setback_field = "keep_m"                  # column with a shape's own setback, m
# status_field  = "class"                   # column that says open, closed or not known, or a growing-area class
# months    = [5, 6, 7, 8, 9]               # only in these months: where it meets the crop's season
# only_for  = "food"                        # only where [farm] use = "food"
# effect    = "close"                       # closes; "caution": kept open, but said wherever a site meets it
# sheet     = "auto"                        # for print: "uses" or "habitat"; auto: by the words in its name
# rule      = "authority, section, date"    # printed; without it: "no rule given"

# [[near]]                                  # what should not lie near a site; closes no water by itself
# name       = "other licences"             # needed, each its own
# file       = "closed.gpkg"                # needed: polygons, lines or points
# layer      = "leases"                     # where the file has more than one
# distance_m = 305                          # needed: from the site's edge, m
# count      = 0                            # so many may lie within it
# effect     = "caution"                    # a word of caution; "close": no site where there are more
# sheet      = "auto"                       # for print: "uses" or "habitat"; auto: by the words in its name
# rule       = "authority, section, date"

[crop]
profile = "warm-red-alga"                   # needed; "tidelot crops" lists them; or a .toml file of your own
# boundary_layer = "current"                # what slow water costs: a factor of the current; or "mass_transfer"
# [crop.set]                                # single constants of the profile, within its range
# t_opt = 24.0

[farm]
# line         = "floats"                   # floats with the tide; or "fixed": hung from the bed
# line_depth_m = 1.0                        # depth of the line, m (published range 0.2 to 1); fixed: below low water
# line_gap_m   = 6.0                        # between longlines, m (permits seen: 6 and more)
# margin_m     = 15.0                       # from the outer lines to the site's edge, m (a permit)
# scope        = 3.0                        # anchor leg = scope x depth at high water, at both ends
# sag_m        = 0.3                        # how far the line sags, m
# hang_m       = 0.5                        # how far the crop hangs below it, m
# clearance_m  = 1.0                        # water left under the gear at the lowest tide, m
# stocking_g_per_m = 100.0                  # fresh weight set out on a metre of line, g
# bundle_m     = 0.15                       # between bundles on a line, m
# harvest_days = 14                         # days between harvests
# outplant     = "auto"                     # auto: by the crop's temperatures; or a day, "05-15"
# last_haul    = "auto"                     # auto, or a day
# use          = "nutrient"                 # what the crop is for; or "food": some rules are for food only
# max_depth_m = 20.0                        # what the gear bears: deeper water is closed
# max_wave_m  = 1.0                         # highest waves it bears: significant, once in fifty years; needs [waves]
# max_current_m_s = 1.0                     # strongest current it bears, mean over the season

# [waves]                                   # waves from wind, fetch and depth
# winds   = "wind_rose.csv"                 # needed: a table of direction (degrees, from), speed (m/s), share (of the time)
# winds_height_m = 10                       # height of the wind above the sea, m
# form    = "young_verhagen"                # of the growth of waves; or "shore_protection"
# directions = 16                           # so many at least; sectors of the rose are divided
# open_km = 50                              # fetch beyond the map where it ends in water: set your own
# working_limit_m = 0.5                     # significant height above which nobody works the lines

# What makes a place good: each criterion turns a measure into 0 to 1 by a curve [[measure, score], ...]
# and counts by its weight. A plan that names any uses only those it names.
# [criteria.growth]                         # net yield, kg per metre of longline (judgement)
# curve  = [[0, 0], [2, 1]]
# weight = 2
# [criteria.depth]                          # depth at low water, m (common practice)
# curve  = [[3, 0], [5, 1], [15, 1], [30, 0]]
# weight = 1
# [criteria.current]                        # speed of the current, m/s (common practice)
# curve  = [[0.02, 0], [0.10, 1], [0.30, 1], [0.75, 0.3], [1.0, 0]]
# weight = 1
# [criteria.waves]                          # significant height once in fifty years, m
# curve  = [[0, 1], [1, 1], [2, 0]]
# weight = 1
# [criteria.access]                         # way over water to [sites] landing, km
# curve  = [[5, 1], [18, 0]]
# weight = 1
# [criteria.slope]                          # of the bed, degrees, from the depths (common practice)
# curve  = [[5, 1], [10, 0]]
# weight = 1
# [criteria.fishing]                        # one of your own, under a name of your own
# file   = "fishing.tif"
# variable = "hours"                        # where the file has more than one
# unit   = "hours a year"                   # printed
# curve  = [[0, 1], [100, 0]]
# weight = 1

# [criteria]
# combine = "geometric"                     # weighted geometric mean, or "minimum", or "both"
# Weights may come from judgements in pairs instead of every weight, 1/9 to 9 times as important:
#   [criteria.judgement]
#   compare = [["growth", "depth", 3], ["growth", "current", 3], ["depth", "current", 1]]
#   accept_ratio = 0.1                      highest consistency ratio that is accepted

[sites]
# count   = 10                              # how many to list
# shape   = "box"                           # a rectangle; or "line": one longline, the smallest licence
# area_ha = 1.2                             # area of a site, ha
# length_to_width = 3.0                     # long side over short side
# along   = "current"                       # long side along the current where its direction is known
# gap_m   = 100.0                           # between sites, m
# min_suitability = 0.3                     # no site where the water scores less
# landing = [-30.05, 41.05]                 # lon, lat of the landing; distances are over water
# draft_m = 0.0                             # of the boat: the way to the landing keeps this depth at low water
# own_corners = [[-30.062, 41.031], [-30.060, 41.032], [-30.059, 41.031], [-30.061, 41.030]]
#                                           # a box of your own, lon, lat in order round it, ranked as it lies; or a list of boxes

# [field]                                   # what was measured from the boat, held against the layers
# readings = "readings.csv"                 # needed: a table of lon, lat, date, property, value, unit
# apply = "confidence"                      # layers' values stay; "bias" shifts them; "replace" bends them near a reading
# With apply = "replace", how far a reading reaches:
#   range_m = 500

[uncertainty]
# seed = 1                                  # the same seed gives the same result
# draws = 64                                # members with other water and crop; 0: the best estimate only
# length_m = 2000                           # over which a layer's error is alike; left out: everywhere

# [load]                                    # the bay's nitrogen load, for the harvests' share of it
# nitrogen_kg_per_year = 52000              # needed; a load a day times 365
# kind = "total N, delivered, all sources"  # what the load counts; printed beside every share
# segment = "inner bay"                     # which part of the bay
# period = "mean of 2020 to 2024"           # what it was counted over
# year = 2024                               # its baseline
# goal_percent = 30                         # how much of it is to be taken out
# residence_months = 0.5                    # how long water stays in the bay: part of the load is lost in the bay by itself

[report]
# applicant = ""                            # title block of the sheets
# waterbody = "Heron Bight"
# marker_gap_m = 90                         # between marker buoys, m (a permit: 300 ft at most)
# units = "both"                            # "metric", "us" or "both"
#   labels = "labels.toml"                  # the report's words in another language
# datum = "WGS 84"                          # of the positions on the site sheets; or "NAD 83"
# what_if = "yes"                           # the table of distances and limits moved by 25 %; "no" saves its time
# date = "2026-06-14"                       # the day on the sheets; left out: room to write it
# paper = "auto"                            # of the sheets: "letter" or "A4"; auto: A4 where units are metric
# sheet_sites = 1                           # so many of the best sites have sheets of their own
# Distance and bearing to charted marks, five at most:
#   [[report.marks]]
#   name = "harbour light"
#   at   = [-30.055, 41.01]                 # lon, lat, WGS 84

# [money]                                   # for the cost of a kilogram of nitrogen, in your own currency
# per_line_m = 9.5                          # a year and metre of longline
# per_year   = 30000                        # a year and site, whatever its length

[run]
# allow = []                                # "ballpark": coordinates on an unknown datum are taken as they are; "outside": files may lie outside of the plan's folder; "network": rasters may be GeoTIFFs on a web server
# codec = "zstd"                            # how the GeoTIFFs are packed; "deflate" for programs older than 2018
)toml";

}  // namespace

std::string starter_plan() { return std::string(kStarter); }

}  // namespace tidelot
