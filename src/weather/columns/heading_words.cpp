// SPDX-License-Identifier: MIT
#include "weather/columns/heading_words.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace soilclock::weather {

namespace {

struct Entry {
  std::string_view words;  // separated by blanks
  Hint hint;
};

/// A word may stand in several rows: "tmax" is a temperature and a maximum.
constexpr std::array entries{
    Entry{
        "temperature temperatures temp tmp t temperatur lufttemperatur ta tair airtemp tmax tmin tmean tavg "
        "tx tn tg tm maxtp "
        "mintp maxt mint maxtemp mintemp tempmax tempmin hightemp lowtemp hochsttemperatur tiefsttemperatur "
        "txk tnk tmk tc tf tmpf tmpc",
        Hint::temperature},
    Entry{"air outdoor outdoors outside aussen aussentemperatur luft exterieur", Hint::outdoors},
    Entry{"max maximum maximal maximale high highest hi hoch hochst hochste maxi tmax tx maxtp maxt maxtemp "
          "tempmax hightemp hochsttemperatur maxima txk",
          Hint::maximum},
    Entry{"min minimum minimal minimale low lowest lo tief tiefst tiefste mini tmin tn mintp mint mintemp "
          "tempmin "
          "lowtemp tiefsttemperatur minima tnk",
          Hint::minimum},
    Entry{"mean avg average mittel mittelwert moyenne moy tmean tavg tg tm tmk", Hint::mean},
    Entry{"soil boden bodentemperatur bodentemp sol soiltemp erdboden", Hint::soil},
    Entry{"rain rainfall precip precipitation precipitations prcp ppt prec prectotcorr prectot niederschlag "
          "niederschlagsmenge niederschlagshohe regen pluie raintot mdpr rsk",
          Hint::rain},
    Entry{"mdpr", Hint::several_days},
    Entry{"humidity rh hum luftfeuchte luftfeuchtigkeit feuchte feuchtigkeit humidite rel", Hint::humidity},
    Entry{"wind windspeed wspd ws wdsp windgeschwindigkeit vent ff", Hint::wind},
    Entry{"today heute", Hint::today},
    Entry{"accumulation accumulated accumulative cumulative cumul cumulated ytd kumuliert running counter",
          Hint::running},
    Entry{"indoor inside innen interieur console dew dewpoint dewp taupunkt rosee mdew mwet dp wet bulb "
          "wetbulb chill "
          "windchill heat heatindex index apparent feels gefuhlte grass gmin igmin surface surf skin ts hpa "
          "kpa pa mbar mb "
          "pressure luftdruck baro barometer water leaf canopy range normal normals departure anomaly tobs "
          "battery "
          "tgk logger panel body black globe sea infrared",
          Hint::not_air},
    Entry{"snow snowfall snwd schnee neige probability chance pop prob hours rate intensity intensitat "
          "duration "
          "equivalent swe showers convective normal departure",
          Hint::not_amount},
    Entry{"moisture deficit deficits smd evapotranspiration et eto evap evaporation pe radiation solar sun "
          "sunshine "
          "cloud cloudcover visibility gust gusts bo direction dir pressure std stdev sd variance count "
          "record rec "
          "radiative wetness water gdd degreedays cover feuchtegehalt bodenfeuchte spread error uncertainty "
          "comment note notes "
          "remark",
          Hint::not_value},
    Entry{"date datum valid lstdate jourdate", Hint::date},
    Entry{"time zeit uhrzeit uhr heure clock", Hint::clock},
    Entry{"datetime timestamp stamp when zeitstempel zeitpunkt horodatage dateheure datetimestamp",
          Hint::stamp},
    Entry{"year yyyy jahr annee yr", Hint::year},
    Entry{"month mo monat mois mon", Hint::month},
    Entry{"day dy jour tag dom", Hint::day},
    Entry{"doy dayofyear jday julian yday", Hint::day_of_year},
    Entry{"hhmm", Hint::hour_minute},
    Entry{"hour hr stunde hh", Hint::hour},
    Entry{"ending hourending he", Hint::hour_ending},
    Entry{"epoch unix unixtime", Hint::epoch},
    Entry{"station site location id name stationid place ort standort stn stid stations wbanno wban",
          Hint::station},
    Entry{"flag flags ind qc quality qflag mflag sflag status", Hint::flag},
    Entry{"attributes", Hint::attributes},
    Entry{"obs observed observation observer", Hint::observation},
    Entry{"latitude lat breite breitengrad", Hint::latitude},
    Entry{"longitude lon long lng lange langengrad", Hint::longitude},
    Entry{"elevation elev altitude alt hohe", Hint::elevation},
    Entry{"c degc celsius centigrade tc tmpc", Hint::celsius},
    Entry{"f degf fahrenheit tf tmpf", Hint::fahrenheit},
    Entry{"k kelvin", Hint::kelvin},
    Entry{"deg degree degrees grad", Hint::degree},
    Entry{"mm millimeter millimetre millimeters millimetres kg", Hint::millimetre},
    Entry{"cm centimeter centimetre centimeters centimetres", Hint::centimetre},
    Entry{"in inch inches zoll", Hint::inch},
    Entry{"mph", Hint::mile_per_hour},
    Entry{"kn kt kts knot knots", Hint::knot},
    Entry{"% percent pct prozent", Hint::percent},
};

/// The letter an accented one is compared as; empty for signs that separate words. Two-byte UTF-8, lead byte
/// C3.
std::string_view without_accent(unsigned char second) {
  struct Fold {
    std::string_view bytes;
    std::string_view letter;
  };
  static constexpr std::array folds{Fold{"\xA0\xA1\xA2\xA3\xA4\xA5\x80\x81\x82\x84", "a"},
                                    Fold{"\xA8\xA9\xAA\xAB\x88\x89\x8A", "e"},
                                    Fold{"\xAC\xAD\xAE\xAF", "i"},
                                    Fold{"\xB2\xB3\xB4\xB5\xB6\x96", "o"},
                                    Fold{"\xB9\xBA\xBB\xBC\x9C", "u"},
                                    Fold{"\xA7\x87", "c"},
                                    Fold{"\x9F", "ss"},
                                    Fold{"\xB1", "n"}};
  for (const Fold& fold : folds) {
    if (fold.bytes.find(static_cast<char>(second)) != std::string_view::npos) return fold.letter;
  }
  return {};
}

enum class Kind { none, lower, upper, digit };

}  // namespace

std::vector<std::string> heading_tokens(std::string_view heading) {
  std::vector<std::string> tokens;
  std::string token;
  Kind previous = Kind::none;
  const auto close = [&] {
    if (!token.empty()) tokens.push_back(std::exchange(token, {}));
    previous = Kind::none;
  };
  for (std::size_t i = 0; i < heading.size(); ++i) {
    const char c = heading[i];
    const auto byte = static_cast<unsigned char>(c);
    if (byte == 0xC3 && i + 1 < heading.size()) {
      const auto letter = without_accent(static_cast<unsigned char>(heading[++i]));
      if (previous == Kind::digit) close();
      token += letter;
      previous = Kind::lower;
    } else if (byte >= 0x80) {
      if (byte != 0xC2) continue;
      // A degree sign stands before its unit; a superscript two after it: both part the words around them.
      close();
      if (i + 1 < heading.size()) ++i;
    } else if (c >= '0' && c <= '9') {
      if (previous == Kind::lower || previous == Kind::upper) close();
      token += c;
      previous = Kind::digit;
    } else if (c >= 'a' && c <= 'z') {
      if (previous == Kind::digit) close();
      token += c;
      previous = Kind::lower;
    } else if (c >= 'A' && c <= 'Z') {
      if (previous == Kind::digit || previous == Kind::lower) close();
      token += static_cast<char>(c - 'A' + 'a');
      previous = Kind::upper;
    } else if (c == '.' && previous == Kind::digit && i + 1 < heading.size() && heading[i + 1] >= '0' &&
               heading[i + 1] <= '9') {
      token += c;
    } else {
      if (c == '"' && previous == Kind::digit) {  // 2" is two inches
        close();
        tokens.emplace_back("in");
      }
      close();
      if (c == '%') tokens.emplace_back("%");
    }
  }
  close();
  return tokens;
}

std::optional<Hints> hints_of(std::string_view word) {
  Hints found;
  for (const Entry& entry : entries) {
    std::string_view words = entry.words;
    while (!words.empty()) {
      const auto end = std::min(words.find(' '), words.size());
      if (words.substr(0, end) == word) found.set(static_cast<std::size_t>(entry.hint));
      words.remove_prefix(std::min(end + 1, words.size()));
    }
  }
  if (found.none()) return std::nullopt;
  return found;
}

}  // namespace soilclock::weather
