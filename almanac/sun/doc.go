// Package sun tells where the sun stands (position.go), when it rises and sets
// (day.go), and how long it shines on a point of a garden among walls, hedges
// and trees (shade.go is the verb; site.go, horizon.go, hours.go are the parts).
//
// Elevation is true: without refraction, seen from the ground at sea level.
// Azimuth runs clockwise from north. A structure is a prism: an outline on the
// plan, a base and a top. From a point of the garden its edges make planes, and
// whether it hides the sun is on which side of them the sun stands; these planes
// are worked out once for a point, sorted into sectors of azimuth (a Point), and
// serve every day of every year. So shade is exact for prisms, and only time is
// counted in steps.
//
// Lengths are metres, angles degrees, hours clock hours. UT1 is taken as UTC,
// which is at most 0.9 s or 0.004° of azimuth off.
package sun
