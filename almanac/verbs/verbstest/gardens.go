package verbstest

import (
	"bytes"
	"fmt"
)

// largeGardens are records for the verbs that read them, each large in one way.
func largeGardens(verb string) []Large {
	if verb != "assess" && verb != "worth" && verb != "picture" {
		return nil
	}
	const kinds = `{"record":"kind/k%d","fields":{"name":"Kind","habit":"shrub","foliage":"deciduous","heightCm":[100,200],"spreadCm":[100,200],"yearsToSize":5,"bloom":[{"from":"04-10","to":"05-10"},{"from":"06-10","to":"07-10","needs":"deadhead"},{"from":"09-01","to":"10-01"}]}}`
	return []Large{
		{"one planting, a look each day", question(verb, planting(0), func(n int) string { return look(n, 0, n%15000) })},
		{"many plantings never looked at", question(verb, bed, func(n int) string { return planting(n) })},
		{"many plantings, each with a look", question(verb, bed, func(n int) string {
			return planting(n) + "," + look(n, n, 15000-n%300)
		})},
		{"many plantings of one kind, never looked at", question(verb, bed, func(n int) string { return planting(5 * n) })},
		{"many plantings of one kind, each with a look", question(verb, bed, func(n int) string {
			return planting(5*n) + "," + look(n, 5*n, 13650-n%300)
		})},
		{"many plantings on one spot", question(verb, bed, func(n int) string {
			return fmt.Sprintf(`{"record":"planting/p%d","fields":{"kind":"rosa-glauca","bed":"b","at":[1,1],"planted":"1900","count":5}}`, n)
		})},
		{"half plantings of a bed, half its works", question(verb, bed, func(n int) string {
			return planting(n) + "," + fmt.Sprintf(`{"record":"work/w%d","fields":{"bed":"b","day":"%s","what":"cut-back","heightLeftCm":10}}`, n, dayN(n%15000))
		})},
		{"one planting, many works", question(verb, planting(0), func(n int) string {
			return fmt.Sprintf(`{"record":"work/w%d","fields":{"planting":"p0","day":"%s","what":"pruned","heightLeftCm":%d}}`, n, dayN(n%15000), 20+n%90)
		})},
		{"one planting, many heights", question(verb, planting(0), func(n int) string {
			return fmt.Sprintf(`{"record":"observation/o%d","fields":{"planting":"p0","seen":"%sT09:00:00Z","heightCm":%d,"spreadCm":40}}`, n, dayN(n%15000), 20+n%90)
		})},
		{"many kinds of three flushes", question(verb, bed, func(n int) string {
			return fmt.Sprintf(kinds, n) + "," + fmt.Sprintf(`{"record":"planting/p%d","fields":{"kind":"k%d","bed":"b","planted":"1980","at":[%d,2]}}`, n, n, n%90)
		})},
		{"many structures around many plantings", question(verb, bed+`,{"record":"garden/g","fields":{"lat":51.5,"lon":-2}}`, func(n int) string {
			return planting(n) + "," + fmt.Sprintf(`{"record":"structure/s%d","fields":{"form":"tree","outline":[[%d,3],[%d,3],[%d,5],[%d,5]],"heightM":9,"leaf":"deciduous","density":0.8}}`, n, n%60, n%60+2, n%60+2, n%60)
		})},
		{"a century of weather for new plantings", question(verb, bed+`,{"record":"garden/g","fields":{"lat":51.5,"lon":-2}}`, func(n int) string {
			weather := fmt.Sprintf(`{"record":"weather/%s.a","fields":{"day":"%s","minC":%d,"maxC":%d,"rainMm":1}}`, dayN(n), dayN(n), n%9, 10+n%9)
			if n%4 > 0 {
				return weather
			}
			return weather + "," + fmt.Sprintf(`{"record":"planting/p%d","fields":{"kind":"cornus-kousa","bed":"b","planted":"2015-03-01","at":[%d,1],"form":"pot","potL":5}}`, n, n%99)
		})},
		{"many records of no kind", question(verb, bed, func(n int) string { return fmt.Sprintf(`{"record":"ghost/%d","fields":{}}`, n) })},
	}
}

const bed = `{"record":"bed/b","fields":{"outline":[[0,0],[100,0],[100,10],[0,10]],"soil":"loam","viewedFrom":[50,-3]}}`

func planting(n int) string {
	kinds := []string{"iris-sibirica", "cornus-kousa", "rosa-gallica-officinalis", "narcissus-february-gold", "astrantia-major"}
	return fmt.Sprintf(`{"record":"planting/p%d","fields":{"kind":%q,"bed":"b","planted":"%d","at":[%d,%d]}}`, n, kinds[n%len(kinds)], 1975+n%40, n%100, n/100%10)
}

func look(n, of, day int) string {
	return fmt.Sprintf(`{"record":"observation/o%d","fields":{"planting":"p%d","seen":"%sT09:00:00Z","stage":%d}}`, n, of, dayN(day), []int{51, 55, 63, 65, 69, 75}[n%6])
}

// dayN is the nth day from 1974-01-01, near enough: months have 28 days.
func dayN(n int) string {
	return fmt.Sprintf("%04d-%02d-%02d", 1974+n/336, 1+n/28%12, 1+n%28)
}

// question asks about the first records and as many further ones as fit.
func question(verb, first string, further func(n int) string) []byte {
	var in bytes.Buffer
	in.WriteString(`{"on":"2015-07-10",`)
	if verb == "picture" {
		in.WriteString(`"planting":"p0",`)
	}
	in.WriteString(`"records":[` + first)
	for n := 0; in.Len() < LargestBytes-1000; n++ {
		in.WriteString("," + further(n))
	}
	in.WriteString(`]}`)
	return in.Bytes()
}
