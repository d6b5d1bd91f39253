// SPDX-License-Identifier: Apache-2.0
#include "layers/station_table.hpp"

#include <catch2/catch.hpp>
#include <string>

#include "layers/station_means.hpp"
#include "tidelot/core/error.hpp"

using namespace tidelot;
using Catch::Contains;

namespace {

StationWish wish(Quantity quantity, const std::string& unit) {
  StationWish out;
  out.key = "water.x";
  out.source.file = {"/plans/s.csv", "s.csv", "", ""};
  out.quantity = quantity;
  out.unit = unit;
  return out;
}

StationWish din() { return wish(Quantity::nitrogen, "umol/L"); }

std::string failure(const StationWish& wanted, const std::string& table,
                    const std::string& stations = "", Fault fault = Fault::input) {
  try {
    (void)read_readings(wanted, table, stations);
  } catch (const Error& e) {
    CHECK(e.fault() == fault);
    CHECK(std::string(e.what()).find('\n') == std::string::npos);
    return e.what();
  }
  return "no failure";
}

bool notes(const Readings& readings, const std::string& text) {
  for (const std::string& note : readings.notes) {
    if (note.find(text) != std::string::npos) {
      return true;
    }
  }
  return false;
}

std::vector<double> values(const Readings& readings) {
  std::vector<double> out;
  for (const Reading& reading : readings.all) {
    out.push_back(reading.value);
  }
  return out;
}

const std::string kHead = "lon,lat,date,value\n";
const std::string kPortal =
    "MonitoringLocationIdentifier,ActivityTypeCode,ActivityMediaName,ActivityStartDate,"
    "ActivityStartTime/Time,ActivityStartTime/TimeZoneCode,ActivityRelativeDepthName,"
    "ActivityDepthHeightMeasure/MeasureValue,ActivityDepthHeightMeasure/MeasureUnitCode,"
    "CharacteristicName,MethodSpeciationName,ResultMeasureValue,ResultMeasure/MeasureUnitCode,"
    "ResultDetectionConditionText,DetectionQuantitationLimitMeasure/MeasureValue,"
    "DetectionQuantitationLimitMeasure/MeasureUnitCode\n";
const std::string kStations =
    "MonitoringLocationIdentifier,LatitudeMeasure,LongitudeMeasure,"
    "HorizontalCoordinateReferenceSystemDatumName\nA,41.01,-30.02,NAD83\nB,41.02,-30.03,WGS84\n";

StationWish portal() {
  StationWish out = wish(Quantity::nitrogen, "");
  out.source.station_file = FileRef{"/plans/places.csv", "places.csv", "", ""};
  out.source.characteristic = "Nitrate + Nitrite";
  return out;
}

}  // namespace

TEST_CASE("a plain table is read with its four columns") {
  const Readings readings = read_readings(din(), kHead + "-30.01,41.02,2021-07-04,3.5\n", "");
  REQUIRE(readings.all.size() == 1);
  CHECK(readings.all[0].place == LonLat{-30.01, 41.02});
  CHECK(readings.all[0].day == Day{2021, 7, 4});
  CHECK(readings.all[0].value == 3.5);
  CHECK(readings.notes.empty());
}

TEST_CASE("headers of one's own are mapped, semicolons and decimal commas read") {
  StationWish wanted = din();
  wanted.source.columns = {{"lon", "X"}, {"lat", "Y"}, {"date", "Tag"}, {"value", "DIN"}};
  const Readings readings = read_readings(wanted, "Y;X;Tag;DIN\n41,02;-30,01;2021-07-04;3,5\n", "");
  CHECK(values(readings) == std::vector<double>{3.5});
  CHECK(readings.all[0].place.lon == -30.01);
  CHECK_THAT(readings.basis, Contains("semicolons, decimal commas"));
  CHECK_THAT(failure(wanted, "Y;X;Tag;DIN\n41,02;-30.01;2021-07-04;3\n"),
             Contains("row 2: lon \"-30.01\" is not a number; other rows have decimal commas"));
  CHECK_THAT(failure(wanted, kHead + "1,2,2021-07-04,3\n"),
             Contains("has no column \"X\" (columns.lon); its header is lon, lat, date, value"));
}

TEST_CASE("longitude, latitude and site are understood in any case, two of one kind refused") {
  for (const char* lon : {"longitude", "Longitude", "LONG", "lng", "Lon"}) {
    for (const char* site : {"site", "Station", "SITE"}) {
      const std::string head = std::string(lon) + ",Latitude," + site + ",Date,VALUE\n";
      const Readings readings = read_readings(din(), head + "-30,41,A,2021-07-04,3\n", "");
      CHECK(readings.all[0].place == LonLat{-30, 41});
      CHECK(readings.all[0].station == "A");
    }
  }
  const std::string both = "lon,Longitude,lat,date,value\n-30,-31,41,2021-07-04,3\n";
  CHECK_THAT(failure(din(), both),
             Contains("s.csv: has two columns that may be the longitude, lon and "
                      "Longitude; rename one, or pick one (columns.lon)"));
  CHECK_THAT(failure(din(), "site,station,lon,lat,date,value\na,b,-30,41,2021-07-04,3\n"),
             Contains("has two columns that may be the station, station and site"));
  CHECK_THAT(failure(din(), "long,lng,lat,date,value\n-30,-30,41,2021-07-04,3\n"),
             Contains("may be the longitude, long and lng"));
  StationWish picked = din();
  picked.source.columns = {{"lon", "Longitude"}};
  CHECK(read_readings(picked, both, "").all[0].place.lon == -31);
}

TEST_CASE("a depth under a header that is not understood is told, not passed over") {
  const std::string row = "1,2,2021-07-04,3,15,40\n";
  const Readings other =
      read_readings(din(), "lon,lat,date,value,Depth_m,Bottom DEPTH\n" + row, "");
  CHECK(other.notes ==
        std::vector<std::string>{"columns not used: Depth_m, Bottom DEPTH; if one is the sample's "
                                 "depth, write depth = \"Depth_m\" in [water.x.columns]"});
  CHECK(read_readings(din(), "lon,lat,date,value,depth,depth of bed\n1,2,2021-07-04,3,1,40\n", "")
            .notes.empty());
  CHECK(read_readings(wish(Quantity::secchi, "m"), "lon,lat,date,value,Depth_m,x\n" + row, "")
            .notes.empty());
  StationWish mapped = din();
  mapped.source.columns = {{"depth", "Depth_m"}};
  CHECK_THAT(failure(mapped, "lon,lat,date,value,Depth_m,x\n" + row),
             Contains("from deeper than 2 m (depth_max_m)"));
}

TEST_CASE("what a row gets wrong is told with its row") {
  CHECK_THAT(
      failure(din(), kHead + "-30,41,04/07/2021,3\n"),
      Contains("water.x: s.csv: row 2: date \"04/07/2021\" is not a day as YYYY-MM-DD; nothing "
               "tells its day from its month"));
  CHECK_THAT(
      failure(din(), kHead + "-30,41,04/07/2021,3\n-30,41,14/07/2021,3\n"),
      Contains("row 2: date \"04/07/2021\" is not a day as YYYY-MM-DD; the column's dates put "
               "the day first (14/07/2021), but that is not guessed"));
  CHECK_THAT(failure(din(), kHead + "-30,41,2021-07-04,3\n-30,x,2021-07-04,3\n"),
             Contains("row 3: lat \"x\" is not a number"));
  CHECK_THAT(failure(din(), kHead + "41,-130,2021-07-04,3\n"), Contains("lon and lat swapped?"));
  CHECK_THAT(failure(din(), kHead + "-30,41,2021-07-04,abc\n"), Contains("value \"abc\""));
  CHECK_THAT(failure(din(), kHead + "-30,41,2021-07-04,99999\n"),
             Contains("row 2: 99999 umol/L is no nitrogen (0 to 2000 umol/L is believed)"));
  CHECK_THAT(failure(din(), "lon,lat,value\n1,2,3\n"), Contains("has no column date"));
  CHECK_THAT(failure(din(), "date,value\n2021-07-04,3\n"), Contains("no station_file"));
  CHECK_THAT(failure(wish(Quantity::secchi, "m"), kHead + "-30,41,2021-07-04,0\n"),
             Contains("row 2: 0 m is no Secchi depth"));
}

TEST_CASE("each row's unit counts, and may not contradict the plan") {
  const std::string head = "lon,lat,date,value,unit\n";
  const Readings mixed = read_readings(wish(Quantity::temperature, ""),
                                       head +
                                           "1,2,2021-07-04,20,deg C\n1,2,2021-07-05,68,deg F\n"
                                           "1,2,2021-07-06,20,furlong\n",
                                       "");
  REQUIRE(mixed.all.size() == 2);
  CHECK(mixed.all[1].value == Approx(20.0));
  CHECK(notes(mixed,
              "1 row whose unit \"furlong\" is not one of temperature left out (the first: "
              "row 4)"));
  CHECK_THAT(failure(wish(Quantity::temperature, "degC"), head + "1,2,2021-07-04,68,deg F\n"),
             Contains("row 2: the row says its unit is \"deg F\", the plan says \"degC\""));
  CHECK_THAT(failure(wish(Quantity::nitrogen, ""), head + "1,2,2021-07-04,1,mg/l\n"),
             Contains("does not say of what"));
  CHECK(read_readings(wish(Quantity::nitrogen, "mg/L as NO3"), head + "1,2,2021-07-04,1,mg/l\n", "")
            .all[0]
            .value == Approx(1000.0 / 62.005));
  CHECK_THAT(failure(wish(Quantity::nitrogen, ""), kHead + "1,2,2021-07-04,1\n", "", Fault::plan),
             Contains("nitrogen has no default unit"));
  CHECK_THAT(failure(wish(Quantity::nitrogen, ""),
                     head + "1,2,2021-07-04,1,umol/L\n1,2,2021-07-05,1,umol/kg\n"),
             Contains("row 3: is per kilogram and other rows are per litre"));
}

TEST_CASE("a unit in brackets in the header of the values is the file's") {
  const auto read = [](Quantity quantity, const std::string& unit, const std::string& header,
                       const std::string& more = "") {
    StationWish wanted = wish(quantity, unit);
    wanted.source.columns = {{"value", header}};
    return std::pair(wanted, "lon,lat,date," + header + (more.empty() ? "" : ",unit") +
                                 "\n1,2,2021-07-04,1" + (more.empty() ? "" : "," + more) + "\n");
  };
  const auto value = [&](auto... given) {
    const auto [wanted, table] = read(given...);
    return read_readings(wanted, table, "").all[0].value;
  };
  const auto refused = [&](auto... given) {
    const auto [wanted, table] = read(given...);
    return failure(wanted, table);
  };
  CHECK(value(Quantity::nitrogen, "", "DIN (umol/L)") == 1.0);
  CHECK(value(Quantity::nitrogen, "", "DIN (lab) [mg/L as NO3]") == Approx(1000.0 / 62.005));
  CHECK(value(Quantity::nitrogen, "mg/L as NO3", "DIN (mg/L)") == Approx(1000.0 / 62.005));
  CHECK(value(Quantity::secchi, "", "Secchi (ft)") == Approx(0.3048));
  CHECK(value(Quantity::secchi, "", "Secchi (ft)", "ft") == Approx(0.3048));
  CHECK(value(Quantity::nitrogen, "umol/L", "DIN (surface)") == 1.0);
  CHECK(value(Quantity::nitrogen, "umol/L", "DIN (") == 1.0);
  CHECK_THAT(
      refused(Quantity::nitrogen, "umol/L", "DIN (mg/L)"),
      Contains("water.x: s.csv: the file says its unit is \"mg/L\", the plan says \"umol/L\"; "
               "correct water.x.unit or leave it out"));
  CHECK_THAT(refused(Quantity::nitrogen, "", "DIN (mg/L)"), Contains("does not say of what"));
  CHECK_THAT(refused(Quantity::temperature, "", "T (degC)", "degF"),
             Contains("row 2: the row says its unit is \"degF\", the header says \"degC\""));
  const auto [wanted, table] = read(Quantity::secchi, "", "Secchi (ft)");
  const Readings readings = read_readings(wanted, table, "");
  CHECK(readings.unit == "ft -> m");
  CHECK(readings.usual_unit == "ft");
  CHECK(readings.notes.empty());
}

TEST_CASE("a portal's download is joined to its stations and cleaned") {
  const std::string sample = "Sample-Routine,Water,";
  const std::string row = "Nitrate + Nitrite,as N,";
  const std::string table =
      kPortal +                                                                                  //
      "A," + sample + "2021-07-04,10:00:00,EST,Surface,0.5,m," + row + "0.14007,mg/l,,,\n" +     //
      "A,Quality Control Sample-Field Blank,Water,2021-07-04,,,,,," + row + "9,mg/l,,,\n" +      //
      "B," + sample + "2021-07-05,,,Bottom,1,m," + row + "0.5,mg/l,,,\n" +                       //
      "B," + sample + "2021-07-05,,,,10,ft," + row + "0.5,mg/l,,,\n" +                           //
      "B," + sample + "2021-07-05,,,,,," + row + ",,Not Detected,0.028014,mg/l\n" +              //
      "B," + sample + "2021-07-06,,,,1,m," + row + ",,Present Above Quantification Limit,,\n" +  //
      "B,Sample-Routine,Sediment,2021-07-06,,,,1,m," + row + "1,mg/l,,,\n" +                     //
      "C," + sample + "2021-07-06,,,,1,m," + row + "1,mg/l,,,\n" +                               //
      "A," + sample + "2021-07-06,,,,1,m,Salinity,,30,PSU,,,\n";
  const Readings readings = read_readings(portal(), table, kStations);
  REQUIRE(readings.all.size() == 2);
  CHECK(readings.all[0].value == Approx(10.0));
  CHECK(readings.all[0].place == LonLat{-30.02, 41.01});
  CHECK(readings.all[0].datum == "NAD83");
  CHECK(readings.all[1].value == Approx(1.0));  // half of 0.028014 mg/l as N, 2 umol/L
  CHECK(notes(readings, "1 row of quality control"));
  CHECK(notes(readings, "1 row from the bottom or the middle"));
  CHECK(notes(readings, "1 row from deeper than 2 m (depth_max_m)"));
  CHECK(notes(readings, "1 row below the detection limit: half the limit is taken"));
  CHECK(notes(readings, "1 row above what could be measured left out"));
  CHECK(notes(readings, "1 row of another medium"));
  CHECK(notes(readings, "1 row of stations that the station file does not hold"));
  CHECK(notes(readings, "1 row without a sampling depth"));

  StationWish open = portal();
  open.source.characteristic = "";
  CHECK_THAT(failure(open, table, kStations),
             Contains("holds 2 characteristics; pick one with water.x.characteristic: Nitrate + "
                      "Nitrite, Salinity"));
  open.source.characteristic = "Turbidity";
  CHECK_THAT(failure(open, table, kStations),
             Contains("no row of the characteristic \"Turbidity\""));
}

TEST_CASE("a column that the plan names is looked for in the readings and in their places") {
  StationWish wanted = din();
  wanted.source.station_file = FileRef{"/plans/places.csv", "places.csv", "", ""};
  wanted.source.columns = {{"lon", "X"}, {"lat", "Y"}, {"station", "Spot"}, {"value", "DIN"}};
  const std::string table = "Spot,date,DIN\nA,2021-07-04,3\n";
  for (const char* head : {"Spot,X,Y\n", "station,x,y\n", "site,X,Y\n"}) {
    CHECK(read_readings(wanted, table, std::string(head) + "A,-30,41\n").all[0].place ==
          LonLat{-30, 41});
  }
  // What the plan names in the places is not taken from other columns of the readings.
  CHECK(read_readings(wanted, "station,lon,lat,date,DIN\nA,1,2,2021-07-04,3\n",
                      "Spot,X,Y\nA,-30,41\n")
            .all[0]
            .place == LonLat{-30, 41});
  wanted.source.columns = {{"lon", "W"}};
  CHECK_THAT(
      failure(wanted, "site,date,value\nA,2021-07-04,3\n", "site,lon,lat\nA,-30,41\n"),
      Contains("water.x: s.csv: has no column \"W\" (columns.lon); its header is site, date, "
               "value, that of places.csv site, lon, lat"));
  CHECK_THAT(failure(wanted, "site,date,value\nA,2021-07-04,3\n", "site,x,lat\nA,-30,41\n"),
             Contains("has no column \"W\" (columns.lon)"));
  wanted.source.columns = {{"value", "lon"}};
  CHECK_THAT(failure(wanted, "site,date,value\nA,2021-07-04,3\n", "site,lon,lat\nA,-30,41\n"),
             Contains("has no column \"lon\" (columns.value); its header is site, date, value"));
  wanted.source.columns = {};
  CHECK_THAT(failure(wanted, "site,date,value\nA,2021-07-04,3\n", "site,east,lat\nA,-30,41\n"),
             Contains("places.csv: has no column for the longitude; write lon = \"...\" in "
                      "[water.x.columns]; its header is site, east, lat"));
  CHECK_THAT(failure(wanted, "spot,date,value\nA,2021-07-04,3\n", "site,lon,lat\nA,-30,41\n"),
             Contains("s.csv: has no column for the station; write station = \"...\" in "));
}

TEST_CASE("points between the parts of a portal's headers are as good") {
  std::string head = kPortal;
  std::replace(head.begin(), head.end(), '/', '.');
  const Readings readings = read_readings(
      portal(), head + "A,Sample,Water,2021-07-04,,,,,,Nitrate + Nitrite,as N,0.14007,mg/l,,,\n",
      kStations);
  CHECK(readings.all[0].value == Approx(10.0));
}

TEST_CASE("a value below a limit is half of it, never zero; one above is left out") {
  const Readings readings = read_readings(
      din(),
      kHead + "1,2,2021-07-04,<0.4\n1,2,2021-07-05,>9\n1,2,2021-07-06,\n1,2,2021-07-07,-9999\n",
      "");
  CHECK(values(readings) == std::vector<double>{0.2});
  CHECK(notes(readings, "1 row above what could be measured"));
  CHECK(notes(readings, "1 row without a value"));
  CHECK(notes(readings, "1 row with -9999"));
}

TEST_CASE("a moment in UTC counts for the local day") {
  const Readings readings =
      read_readings(din(), kHead + "-71,41,2021-08-01T02:00Z,3\n-71,41,2021-08-01T02:00,4\n", "");
  CHECK(readings.all[0].day == Day{2021, 7, 31});
  CHECK(readings.all[1].day == Day{2021, 8, 1});
  CHECK(notes(readings, "1 row in UTC: their day is that of local time"));
}

TEST_CASE("a day's repeats are one, a month is the mean of its days") {
  const Readings readings = read_readings(
      din(), kHead + "1,2,2021-07-04,2\n1,2,2021-07-04,4\n1,2,2020-07-09,9\n1,2,2021-08-01,1\n",
      "");
  const AllMeans means = monthly_means(readings.all);
  REQUIRE(means.places.size() == 1);
  CHECK(means.places[0].mean[6] == 6.0);  // (3 + 9)/2
  CHECK(means.places[0].days[6] == 2);
  CHECK(means.places[0].mean[7] == 1.0);
  CHECK(std::isnan(means.places[0].mean[0]));
  CHECK(means.merged == 1);
  CHECK(means.first == Day{2020, 7, 9});
  CHECK(means.last == Day{2021, 8, 1});
}

TEST_CASE("a table without a reading that counts says what became of its rows") {
  CHECK_THAT(failure(din(), kHead + "1,2,2021-07-04,\n"),
             Contains("holds no reading that counts: 1 row without a value left out"));
  CHECK_THAT(failure(din(), kHead), Contains("holds no reading that counts"));
}
