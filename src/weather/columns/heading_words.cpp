// SPDX-License-Identifier: MIT
#include "weather/columns/heading_words.hpp"

#include <algorithm>
#include <array>
#include <unordered_map>

namespace soilclock::weather {

namespace {

struct Entry {
  std::string_view words;  // separated by blanks
  Hint hint;
};

/// A word may stand in several rows: "tmax" is a temperature and a maximum.
constexpr std::array entries{
    Entry{
        "temperature temperatures temp temps tmp t temperatur lufttemperatur ta tair airtemp tmax tmin tmean "
        "tavg tx tn tg tm maxtp mintp maxt mint maxtemp mintemp tempmax tempmin hightemp lowtemp "
        "hochsttemperatur tiefsttemperatur txk tnk tmk tc tf tmpf tmpc temperatura temperaturas "
        "maximaltemperatur minimaltemperatur maximumtemperatur minimumtemperatur mitteltemperatur "
        "tagesmaximum tagesminimum tmed tmoy tmedia",
        Hint::temperature},
    Entry{"air outdoor outdoors outside aussen aussentemperatur luft lufttemperatur exterieur exterieure "
          "exterior externa externo esterna esterno aire aria ar ambient tair airtemp",
          Hint::outdoors},
    Entry{"max maximum maximal maximale high highest hi hoch hochst hochste hochster hochsttemperatur maxi "
          "tmax tx maxtp maxt maxtemp tempmax hightemp maxima maximas maximo maximos massima massime massimo "
          "maximaltemperatur maximumtemperatur tagesmaximum txk",
          Hint::maximum},
    Entry{
        "min minimum minimal minimale low lowest lo tief tiefst tiefste tiefster tiefsttemperatur mini tmin "
        "tn mintp mint mintemp tempmin lowtemp minima minimas minimo minimos minime minimaltemperatur "
        "minimumtemperatur tagesminimum tnk",
        Hint::minimum},
    Entry{
        "mean avg average mittel mittelwert mittlere tagesmittel mitteltemperatur durchschnitt moyenne moyen "
        "moy media medie medio med promedio tmean tavg tg tm tmk tmed tmoy tmedia",
        Hint::mean},
    Entry{"soil boden bodentemperatur bodentemp sol soiltemp erdboden erdreich ground suelo solo suolo "
          "terreno terra tierra",
          Hint::soil},
    Entry{"rain rains rainfall precip precipitation precipitations prcp ppt prec pcp prectotcorr prectot "
          "niederschlag niederschlage niederschlagsmenge niederschlagshohe niederschlagssumme regen "
          "regenmenge pluie pluies raintot mdpr rsk rr lluvia lluvias precipitacion precipitaciones "
          "precipitacao precipitacoes precipitazione precipitazioni pioggia piogge chuva chuvas pluviometrie "
          "pluviometria pluviosita pluviosidade pluviosidad dailyrain",
          Hint::rain},
    Entry{"mdpr", Hint::several_days},
    Entry{"humidity rh hum luftfeuchte luftfeuchtigkeit feuchte feuchtigkeit humidite rel humedad umidade "
          "umidita",
          Hint::humidity},
    Entry{"wind windspeed wspd ws wdsp windgeschwindigkeit vent ff viento vento", Hint::wind},
    Entry{"today heute hoy oggi hoje dailyrain", Hint::today},
    Entry{"accumulation accumulated accumulative cumulative cumul cumulated ytd mtd wtd kumuliert running "
          "counter acumulada acumulado cumulata cumulato cumulee",
          Hint::running},
    Entry{
        "indoor indoors inside innen interieur interior interno interna console dew dewpoint dewp taupunkt "
        "rosee rocio rugiada orvalho mdew mwet dp wet wetbulb chill windchill heat heatindex index "
        "apparent feels gefuhlte grass gmin igmin surface surf skin ts hpa kpa pa mbar mb pressure luftdruck "
        "baro barometer water leaf canopy range tobs tgk logger panel body black globe sea infrared hvac "
        "house shed greenhouse pool basement attic garage shop office",
        Hint::not_air},
    Entry{"snow snowfall snwd schnee neige neve nieve probability chance pop prob hours rate intensity "
          "intensitat duration equivalent swe showers convective irrigation sprinkler",
          Hint::not_amount},
    Entry{
        "moisture deficit deficits smd evapotranspiration et eto evap evaporation pe radiation solar sun "
        "sunshine cloud cloudcover visibility gust gusts bo direction dir std stdev sd variance count rec "
        "radiative wetness gdd degreedays cover feuchtegehalt bodenfeuchte spread error uncertainty comment "
        "note notes remark battery batt voltage volt volts level signal salinity ec conductivity",
        Hint::not_value},
    Entry{"forecast forecasts fcst predicted prediction pred expected outlook projected projection previous "
          "prev prior yesterday last past next tomorrow normal normals norm climatology climatological "
          "climate clim longterm historical historic history record records departure departures anomaly "
          "deviation dep diff difference change delta trend tendency percentile percentiles pctl quantile "
          "median rank season seasonal annual yearly ytd mtd wtd monthly week weeks weekly fortnight "
          "threshold limit limits alarm alert set setpoint target goal reference ref days ago lag lagged "
          "bias correction trigger control heating cooling growing chilling point since storm event "
          "prevision previsione previsioni previsao prevista previsto pronostico vorhersage prognose ayer "
          "gestern vortag hier veille ieri ontem normale normales normalwert abweichung mensual mensuel "
          "mensuelle mensile semanal rekord",
          Hint::qualified},
    Entry{
        "issue issued download downloaded print printed export exported created creation modified updated "
        "update changed sunrise sunset moonrise moonset dawn dusk published entry entered received upload "
        "uploaded run forecast birth install installed calibration calibrated last first next sent loaded "
        "processed processing mowing mow planting sowing spray treatment expiry expires due billing invoice "
        "max maximum min minimum high low peak service serviced maintenance previous analysis inserted "
        "ausgabe ausgabedatum druckdatum exportdatum erstellt abruf abrufdatum emision descarga emission "
        "edition impression telechargement stampa emissao",
        Hint::other_date},
    Entry{
        "the a an out of at for and in on per by to from with as is value values val reading readings "
        "measured "
        "measurement sensor sensors probe probes channel ch no nr number unit units daily hourly taglich "
        "tagliche taglicher day's giornaliera giornaliero giornaliere diaria diario diarias quotidienne "
        "quotidien journaliere journalier tageswert screen shelter dry bulb drybulb depth total tot totals "
        "sum summe suma somma soma somme amount menge cantidad quantita gauge bucket tipping tip raingauge "
        "collector weather meteo smp sample est cst mst pst edt cdt mdt pdt lst agl de do da del della delle "
        "dello des du d la le les el los las il lo em en im am der die das den dem und y e et unter tiefe "
        "profundidad profondeur profondita profundidade height hauteur altura altezza current actual "
        "data dia l dell h",
        Hint::harmless},
    Entry{"date dates datum fecha data valid lstdate jourdate obsdate", Hint::date},
    Entry{"time zeit uhrzeit uhr heure clock hora ora orario", Hint::clock},
    Entry{"datetime timestamp stamp when zeitstempel zeitpunkt horodatage dateheure datetimestamp fechahora",
          Hint::stamp},
    Entry{"year yyyy jahr annee yr ano anno", Hint::year},
    Entry{"month mo monat mois mon mes mese", Hint::month},
    Entry{"day dy jour tag dom dia giorno", Hint::day},
    Entry{"doy dayofyear jday julian yday", Hint::day_of_year},
    Entry{"hhmm", Hint::hour_minute},
    Entry{"hour hr stunde hh", Hint::hour},
    Entry{"ending hourending he", Hint::hour_ending},
    Entry{"epoch unix unixtime", Hint::epoch},
    Entry{"station site location id name stationid place ort standort stn stid stations wbanno wban estacion "
          "stazione estacao",
          Hint::station},
    Entry{"flag flags ind qc quality qflag mflag sflag status", Hint::flag},
    Entry{"attributes", Hint::attributes},
    Entry{"obs observed observation observations observer beobachtung mess messung medicion medicao misura "
          "mesure osservazione observacion observacao",
          Hint::observation},
    Entry{"latitude lat breite breitengrad latitud latitudine", Hint::latitude},
    Entry{"longitude lon long lng lange langengrad longitud longitudine", Hint::longitude},
    Entry{"elevation elev altitude alt hohe", Hint::elevation},
    Entry{"local lst ortszeit locale", Hint::local},
    Entry{"utc gmt zulu", Hint::universal},
    Entry{"c degc celsius centigrade tc tmpc", Hint::celsius},
    Entry{"f degf fahrenheit tf tmpf", Hint::fahrenheit},
    Entry{"k degk kelvin", Hint::kelvin},
    Entry{"deg degs degree degrees grad grados gradi degres graus", Hint::degree},
    Entry{"mm millimeter millimetre millimeters millimetres milimetros millimetri kg", Hint::millimeter},
    Entry{"cm centimeter centimetre centimeters centimetres centimetros centimetri", Hint::centimeter},
    Entry{"in inch inches zoll pulgadas pouces pollici polegadas", Hint::inch},
    // The French and British word is written apart: our own texts spell it the American way.
    Entry{"m meter meters metros metri metr"
          "e metr"
          "es",
          Hint::meter},
    Entry{"ft foot feet", Hint::foot},
    Entry{"tenth tenths 10ths zehntel dixieme dixiemes decimas decimi decimos", Hint::tenths},
    Entry{"hundredth hundredths hundertstel centiemes centesimas centesimi centesimos", Hint::hundredths},
    Entry{"thousandth thousandths tausendstel milliemes milesimas millesimi", Hint::thousandths},
    Entry{"above over uber sobre dessus sopra acima", Hint::above},
    Entry{"mph", Hint::mile_per_hour},
    Entry{"kn kt kts knot knots", Hint::knot},
    Entry{"% percent pct prozent porcentaje percentuale pourcent", Hint::percent},
};

using WordTable = std::unordered_map<std::string_view, Hints>;

WordTable word_table() {
  WordTable table;
  for (const Entry& entry : entries) {
    std::string_view words = entry.words;
    while (!words.empty()) {
      const auto end = std::min(words.find(' '), words.size());
      if (end > 0) table[words.substr(0, end)].set(static_cast<std::size_t>(entry.hint));
      words.remove_prefix(std::min(end + 1, words.size()));
    }
  }
  return table;
}

}  // namespace

std::optional<Hints> hints_of(std::string_view word) {
  static const WordTable table = word_table();
  const auto found = table.find(word);
  if (found == table.end()) return std::nullopt;
  return found->second;
}

}  // namespace soilclock::weather
