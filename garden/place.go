package garden

// Identity is the id half of the record's reference; Decode fills it in.
type Identity struct {
	ID string `json:"id,omitempty"`
}

func (i *Identity) setID(id string) { i.ID = id }

// A Point is a place on the plan: metres east and north of the plan's origin
// when planBearingDeg is 0.
type Point [2]float64

// An Outline is a closed polygon on the plan, in metres, its last point not
// repeated.
type Outline []Point

// A Place is a point on the earth, WGS 84, degrees, north and east positive.
type Place struct {
	Lat float64 `json:"lat"`
	Lon float64 `json:"lon"`
}

// A Garden is one place kept by one household.
type Garden struct {
	Identity
	Name           string   `json:"name"`
	Lat            *float64 `json:"lat"`
	Lon            *float64 `json:"lon"`
	AltitudeM      *float64 `json:"altitudeM"`
	TimeZone       string   `json:"timeZone"` // IANA
	PlanOrigin     *Place   `json:"planOrigin"`
	PlanBearingDeg float64  `json:"planBearingDeg"` // of the plan's y axis, clockwise from north
	Units          string   `json:"units"`          // metric or imperial
	Normals        []Normal `json:"normals"`        // twelve, January first
	Clock          *Day     `json:"clock"`          // a demo's fixed date
}

// A Normal is one month's long-term mean: daily minimum and maximum in °C, rain
// in mm for the month.
type Normal struct {
	MinC   float64 `json:"minC"`
	MaxC   float64 `json:"maxC"`
	RainMm float64 `json:"rainMm"`
}

// A Bed is a piece of ground.
type Bed struct {
	Identity
	Name       string   `json:"name"`
	Outline    Outline  `json:"outline"`
	Soil       string   `json:"soil"` // USDA texture class
	PH         *float64 `json:"ph"`
	Drainage   string   `json:"drainage"`
	Exposure   string   `json:"exposure"`
	Irrigated  bool     `json:"irrigated"`
	Container  bool     `json:"container"`
	ViewedFrom *Point   `json:"viewedFrom"`
	Order      float64  `json:"order"` // place in the round
}

// A Structure casts shade or carries a climber.
type Structure struct {
	Identity
	Name    string   `json:"name"`
	Form    string   `json:"form"` // wall, fence, hedge, tree, building, arch, pergola
	Outline Outline  `json:"outline"`
	BaseM   float64  `json:"baseM"`
	HeightM *float64 `json:"heightM"`
	Leaf    string   `json:"leaf"` // none, deciduous, evergreen
	Density *float64 `json:"density"`
}
