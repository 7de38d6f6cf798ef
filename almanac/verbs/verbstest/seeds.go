package verbstest

import "haulm/almanac/verbs"

// Seeds gives inputs that a verb answers: its example, and more where it has
// several ways.
func Seeds(verb verbs.Verb) [][]byte {
	seeds := [][]byte{[]byte(verb.Example)}
	for _, more := range moreSeeds()[verb.Name] {
		seeds = append(seeds, []byte(more))
	}
	return seeds
}

func moreSeeds() map[string][]string {
	return map[string][]string{
		"curve-fit": {
			`{"model":"gompertz","x":[118,484,664,1004,1231,1372,1582],"y":[30,58,87,115,120,142,145]}`,
			`{"model":"asymptotic","x":[1,2,3,5,8,13],"y":[3,14,22,31,38,40]}`,
			`{"model":"chapman-richards","x":[3,5,10,15,20,25],"y":[4.5,10.9,28.7,41.7,52.1,60.6]}`,
		},
		"degree-days": {
			`{"method":"average","baseC":10,"upperC":30,"days":[{"day":"2015-07-01","minC":14,"maxC":33},{"day":"2015-07-02","minC":null,"maxC":31},{"day":"2015-07-03","minC":12,"maxC":24}]}`,
			`{"method":"average-floor","baseC":10,"days":[{"day":"2015-05-01","minC":4,"maxC":15},{"day":"2015-05-09","minC":8,"maxC":19}]}`,
			`{"method":"single-sine","baseC":5,"upperC":20,"days":[{"day":"2015-05-01","minC":1,"maxC":24},{"day":"2015-05-02","minC":7,"maxC":26}]}`,
		},
		"first-flower": {
			`{"kinds":{"early":{"expectedDay":60},"late":{"expectedDay":230,"sdDays":6}},"seasons":{"2014":{"meanDays":3},"2015":{"meanDays":-4}},"flushes":[{"planting":"a","kind":"early","year":2014,"after":61,"by":66,"yearsSincePlanting":0.5,"form":"bare-root"},{"planting":"a","kind":"early","year":2015,"after":64,"by":64},{"planting":"b","kind":"late","year":2014,"after":null,"by":240},{"planting":"b","kind":"late","year":2015,"after":251,"by":null},{"planting":"c","kind":"early","year":2015,"after":55,"by":63}]}`,
		},
		"growth": {
			`{"kind":{"habit":"perennial","foliage":"herbaceous","heightCm":[80,110],"spreadCm":[40,60],"yearsToSize":3,"pace":"ordinary","emerges":{"from":"03-10","to":"04-10"},"bloom":[{"from":"06-10","to":"07-20"}]},"planted":"2012-10","form":"pot","potL":2,"measures":[{"day":"2014-06-20","heightCm":84,"spreadCm":35,"stems":9},{"day":"2015-06-20","heightCm":92}],"work":[{"day":"2015-03-01","what":"divided"}],"on":"2015-07-10"}`,
			`{"kind":{"habit":"bulb","heightCm":[20,30],"spreadCm":[5,8],"yearsToSize":1,"bloom":[{"from":"03-01","to":"03-25"}]},"planted":"2011-10-01","form":"bulb","count":50,"measures":[{"day":"2013-03-10","alive":48},{"day":"2015-03-10","alive":21,"stems":12}],"on":"2015-04-10"}`,
			`{"kind":{"habit":"shrub","foliage":"deciduous","heightCm":[150,200],"spreadCm":[150,200],"yearsToSize":6,"pace":"quick","pruneGroup":"late-winter-hard","bloom":[{"from":"07-20","to":"09-30"}]},"planted":"2010","form":"bare-root","heightCm":40,"measures":[{"day":"2015-07-01","heightCm":130}],"work":[{"day":"2015-02-20","what":"pruned","heightLeftCm":30}],"on":"2015-08-01"}`,
			`{"kind":{"habit":"annual","lifeCycle":"annual","heightCm":[60,90],"spreadCm":[20,30],"yearsToSize":1,"pace":"quick","bloom":[{"from":"07-01","to":"09-30"}]},"planted":"2015-05-10","form":"plug","heightCm":8,"southern":true,"latenessDays":6,"on":"2015-12-01"}`,
		},
		"evapotranspiration": {
			`{"method":"penman-monteith","lat":50.8,"altitudeM":100,"days":[{"day":"2015-07-06","minC":12.3,"maxC":21.5,"windMs":2.1,"sunHours":9.25,"humidityMinPct":63,"humidityMaxPct":84},{"day":"2015-07-07","minC":13,"maxC":23,"windMs":2,"solarMJ":21,"vapourKPa":1.4},{"day":"2015-07-08","minC":11,"maxC":24,"windMs":1}]}`,
		},
		"height-from-photo": {
			`{"caneCm":120,"caneTop":[1010,780],"caneFoot":[1000,1900],"plantTop":[1500,300],"plantFoot":[1480,1950],"caneDistanceM":3,"plantDistanceM":3.4,"pixelError":6}`,
		},
		"mulch": {
			`{"outline":[[0,0],[6,0],[6,3],[0,3]],"minus":[[[1,1],[2,1],[2,2],[1,2]],[[4,1],[5,1],[4.5,2]]],"depthCm":7,"material":"compost"}`,
		},
		"picture": {
			`{"on":"2015-07-10","planting":"p","records":[{"record":"garden/g","fields":{"lat":51.5,"lon":-2,"altitudeM":90}},{"record":"planting/p","fields":{"kind":"iris-sibirica","planted":"2012-04","heightCm":20}},{"record":"observation/o","fields":{"planting":"p","seen":"2014-06-01T09:00:00+01:00","stage":63,"heightCm":80}},{"record":"observation/q","fields":{"planting":"p","seen":"2015-05-20T09:00:00+01:00","notInFlower":true}}]}`,
		},
		"shade": {
			`{"garden":{"lat":-37.8,"lon":145,"planBearingDeg":30,"normals":[{"minC":14,"maxC":26},{"minC":14,"maxC":26},{"minC":13,"maxC":24},{"minC":11,"maxC":20},{"minC":9,"maxC":17},{"minC":7,"maxC":14},{"minC":6,"maxC":13},{"minC":7,"maxC":15},{"minC":8,"maxC":17},{"minC":9,"maxC":20},{"minC":11,"maxC":22},{"minC":13,"maxC":24}]},"structures":[{"form":"building","outline":[[2,-4],[8,-4],[8,6],[2,6]],"heightM":5},{"form":"hedge","outline":[[-6,2],[-2,2],[-2,3],[-6,3]],"heightM":1.8,"leaf":"evergreen"},{"form":"tree","outline":[[-3,-3],[-1,-3],[-1,-1],[-3,-1]],"baseM":2,"heightM":7,"leaf":"deciduous"}],"point":[0,0.5],"day":"2026-09-22"}`,
		},
		"simulate": {
			`{"seed":7,"plantings":4,"years":3,"breaks":["heavy-tails","weekends","misread"]}`,
		},
		"spacing": {
			`{"outline":[[0,0],[6,0],[6,3],[0,3]],"spacingCm":40,"pattern":"square"}`,
		},
		"suit": {
			`{"spot":{"lat":-37,"sunHours":7,"sunMorning":3,"moisture":"dry","minWinterC":-2,"colours":["#ffffff"]},"choose":3}`,
		},
		"tie": {
			`{"photo":{"seen":"2015-07-10T09:15:00-07:00","lastPlanting":"a","lastSeen":"2015-07-10T09:14:00-07:00"},"garden":{"planOrigin":{"lat":47.6,"lon":-122.3}},"plantings":[{"id":"a","at":[0.5,1]},{"id":"b"}]}`,
			`{"photo":{"lat":47.60004,"lon":-122.30002,"accuracyM":3,"bearingDeg":20,"seen":"2015-07-10T09:15:00-07:00","lastPlanting":"a","lastSeen":"2015-07-10T09:12:00-07:00"},"garden":{"planOrigin":{"lat":47.6,"lon":-122.3},"planBearingDeg":12},"plantings":[{"id":"a","area":[[0,0],[3,0],[3,2],[0,2]],"inFlower":true},{"id":"b","at":[-2,4],"inFlower":false},{"id":"c","at":[5,5]}]}`,
		},
	}
}
