package scenarios

import (
	"strandry/diffusion"
	"strandry/materials/humidair"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// Build is what can be built, within which advice keeps.
type Build struct {
	Longest float64  // path of one zone [m]; of a zone whose shape is stated see [Scenario.LongestOf]
	Hottest float64  // air of a zone [K]; advice goes no further than the strand bears
	Driest  float64  // dew or frost point of supplied air [K]
	Slowest float64  // feed of the strand [m/s]
	Fastest float64  // [m/s]
	Assumed []string // of the length, where it was not given
	Usual   []string // of the others, which advice alone heeds
}

// LongestOf is the longest path of a zone that can be built [m]: that of [Build], or what its shape holds, in the box of the file or with the turns or passes that it states, if that is less. It is
// rounded down to what one would say, though to no less than the length of the zone that the shape does hold.
func (s *Scenario) LongestOf(zone int) float64 {
	const digits = 3
	longest := s.Build.Longest
	if zone < 0 || zone >= len(s.Machine.Chambers) {
		return longest
	}
	most, own := s.Machine.Holds(zone, 2*s.Model.Radius), s.Model.Path[zone].Length
	rounded := quantity.Outward(most, digits, false)
	if most < 0 || own > rounded && own <= most*(1+1e-9) {
		rounded = own // where none fits the box, no more of it is proposed
	}
	if rounded > 0 {
		return min(longest, rounded)
	}
	return longest
}

// Store is where dry strands are kept.
type Store struct {
	Temperature    float64  // [K]
	Humidity       float64  // of the closed store, relative [-]
	VapourPressure float64  // [Pa]
	Assumed        []string // what was not given
}

// Opening is what the store's air goes through when its door is opened: the humidity is that
// of the room while the door is open and nears the store's exponentially after.
type Opening struct {
	Duration     float64  // of the open door [s]
	TimeConstant float64  // of the return [s]
	PerDay       float64  // openings in a day
	Assumed      []string // what was not given
}

// beside reads what stands beside the model, on which it does not act: what can be built, the store and its door.
func (r *reading) beside(root section, s *Scenario) {
	before := r.assumed
	take := func() []string {
		found := r.assumed[len(before):]
		r.assumed = before
		return append([]string(nil), found...)
	}
	build := root.sub("build")
	long := 20.0 // [m], or the longest zone as drawn
	for i := range s.Model.Path {
		long = max(long, s.Model.Path[i].Length)
	}
	s.Build.Longest = build.quantityOr("longest", quantity.Length(), strict.Limits{Min: 1e-3, Max: 1e4, Unit: "m"}, long)
	s.Build.Assumed = take()
	r.bounds(build, s)
	s.Build.Usual = take()

	store := root.sub("store")
	s.Store.Temperature = store.quantityOr("temperature", quantity.Temperature(), AirTemperatures(), s.Room.Temperature)
	s.Store.Humidity = store.quantityOr("humidity", quantity.Humidity(), Humidities(), 0.02)
	s.Store.VapourPressure = humidair.VapourPressureAt(s.Store.Humidity, s.Store.Temperature)
	if s.Store.VapourPressure > diffusion.MostVapour*s.Room.Pressure {
		store.fault("humidity", "so hot and humid that no air is left in the store", "a vapour pressure of up to 99 % of the room's pressure")
	}
	s.Store.Assumed = take()

	opening := root.sub("opening")
	times := func(min float64, unit string) strict.Limits {
		return strict.Limits{Min: min, Max: 30 * 86400, Unit: unit}
	}
	o := &s.Opening
	o.TimeConstant = opening.quantityOr("time_constant", quantity.Duration(), times(1, "min"), 600)
	o.Duration = opening.quantityOr("duration", quantity.Duration(), times(1, "s"), 30)
	given := opening.has("per_day")
	o.PerDay = opening.number("per_day", strict.Limits{Min: 0.01, Max: 1000}, 4)
	if !given {
		r.assume(opening.name("per_day") + ": 4")
	}
	o.Assumed = take()
	if o.Duration*o.PerDay >= 86400 {
		opening.fault("duration", "the door would never be closed", "less than a day for all openings of a day")
	}
}

// bounds reads what else can be built. Nothing said, no hotter than the material is usually dried, air of a frost point of -40 °C, which two
// towers of molecular sieve reach (common practice, no source), a feed half as fast as drawn, and none that is faster.
func (r *reading) bounds(t section, s *Scenario) {
	const frost, share = 233.15, 0.5
	b, m := &s.Build, &s.Model
	b.Hottest = t.quantityOr("hottest", quantity.Temperature(), AirTemperatures(), m.Material.HottestDrying())
	b.Driest = t.quantityOr("driest", quantity.Temperature(), dewPoints(), frost)
	feeds := strict.Limits{Min: slowest, Max: fastest, Unit: "mm/s"}
	b.Slowest = t.quantityOr("slowest", quantity.Speed(), feeds, max(slowest, share*m.Speed))
	b.Fastest = t.quantityOr("fastest", quantity.Speed(), feeds, m.Speed)
	if t.has("slowest") && t.has("fastest") && b.Slowest > b.Fastest {
		t.fault("slowest", "faster than the fastest feed", "no more than fastest, "+quantity.Speed().Format(b.Fastest, "mm/s", 4))
	}
}
