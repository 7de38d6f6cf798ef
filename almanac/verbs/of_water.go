package verbs

import "haulm/almanac/water"

// waterVerbs answer how dry the ground is.
func waterVerbs() []Verb {
	return []Verb{
		verb("evapotranspiration", "how much water the air asks of a lawn that lacks none, day by day",
			`{"method":"hargreaves","lat":47.45,"days":[{"day":"2015-07-01","minC":17.2,"maxC":33.3}]}`, `
			method                  penman-monteith or hargreaves (FAO Irrigation and Drainage Paper 56)
			lat                     degrees north, -90 to 90
			altitudeM               metres, -430 to 6000; penman-monteith wants it
			days[].day              YYYY-MM-DD, each once, in any order
			days[].minC             °C, -90 to 60; null is not measured
			days[].maxC             °C, -90 to 60 and not below minC; null is not measured
			days[].windMs           m/s at 2 m, 0 to 115; penman-monteith wants it
			days[].solarMJ          MJ/m², 0 to 50
			days[].sunHours         hours of sunshine, 0 to 24, instead of solarMJ; with neither it is guessed from minC and maxC
			days[].vapourKPa        kPa, 0 to 25
			days[].humidityMinPct   %, 0 to 100, with humidityMaxPct
			days[].humidityMaxPct   %, 0 to 100
			days[].humidityMeanPct  %, 0 to 100; with none of these four it is guessed from minC`, water.Evapotranspiration),
		verb("soil-water", "what a root zone is short of, day by day",
			`{"soil":"sandy loam","rootM":0.5,"kc":0.8,"depletionFraction":0.5,"startDepletionMm":20,"days":[{"day":"2015-07-01","et0Mm":6.2,"rainMm":0,"irrigationMm":0}]}`, `
			soil                 texture as a bed's: sand, loamy sand, … clay
			rootM                depth of the roots in metres, 0.01 to 10
			kc                   crop coefficient, 0 to 3
			depletionFraction    share of the water that is used without stress, 0 to 1
			startDepletionMm     mm, from 0 up to what the root zone holds
			days[].day           YYYY-MM-DD, every day once and in order
			days[].et0Mm         mm, 0 to 2000
			days[].rainMm        mm, 0 to 2000
			days[].irrigationMm  mm, 0 to 2000`, water.SoilWater),
		verb("water", "what one planting is short of, and the litres to give it",
			`{"kind":{"habit":"shrub","foliage":"deciduous","moisture":"drained","spreadCm":[120,180],"yearsToSize":6},"planted":"2015-04-20","form":"pot","potL":3,"soil":"loam","given":[{"day":"2015-05-02","litres":5}],"mulch":[{"day":"2015-04-20","depthCm":5}],"on":"2015-05-04","lat":47.45,"days":[{"day":"2015-05-01","minC":8,"maxC":19,"rainMm":0},{"day":"2015-05-02","minC":8,"maxC":20,"rainMm":0},{"day":"2015-05-03","minC":9,"maxC":22,"rainMm":0.4}]}`, `
			kind             the fields of a kind record: habit, foliage, emerges, spreadCm, yearsToSize (years) and moisture count
			planted          YYYY, YYYY-MM or YYYY-MM-DD; null is there before anyone knows
			form             as planted: bare-root, pot, bulb, plug or seed
			potL             litres of the pot that it came in or stands in, 0 to 2000
			depthCm          cm deep, -200 to 200
			count            plants, 0 to 100000; null is one
			areaM2           m² of the whole planting, 0.0001 to 1000000
			soil             texture as a bed's; where it is not said, loam
			irrigated        true where the bed is watered by itself
			container        true in a pot
			rainShare        share of the rain that gets there, 0 to 1; null is all
			given[].day      YYYY-MM-DD; those after on are not looked at
			given[].litres   litres for all its plants, 0 to 1000000; null is a soaking
			mulch[].day      YYYY-MM-DD
			mulch[].depthCm  cm, 0 to 100; null is the usual
			latenessDays     how many days later than at 51.5° N seasons run here, -200 to 200
			on               the day to answer for, YYYY-MM-DD
			lat              degrees north, -90 to 90
			altitudeM        metres, -430 to 6000
			days[].day       YYYY-MM-DD, each once, in any order
			days[].minC      °C, -90 to 60; null is not measured
			days[].maxC      °C, -90 to 60 and not below minC; null is not measured
			days[].rainMm    mm, 0 to 2000; null is not measured
			days[].sunHours  hours of sunshine, 0 to 24
			days[].windMs    m/s at 10 m, 0 to 115`, water.Reckon),
	}
}
