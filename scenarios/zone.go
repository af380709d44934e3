package scenarios

import (
	"slices"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/diffusion/machine"
	"strandry/materials/humidair"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// emissivity of strand and wall together where none is given: polymers and
// painted or oxidised walls lie near it (common practice, no source).
const emissivity = 0.9

// StillAir is the film on a loose strand at rest.
func StillAir() diffusion.Film {
	return diffusion.Film{Flow: film.Natural, Emissivity: emissivity}
}

// longestName is how many letters a zone's name may have.
const longestName = 60

// zones reads [[zone]], the way from spool to nozzle.
func (r *reading) zones(root section, s *Scenario) []diffusion.Zone {
	tables := root.subs("zone")
	if !root.has("zone") || tables != nil && len(tables) == 0 {
		root.fault("zone", "no zone", "one or more [[zone]], in the order in which the strand meets them")
	}
	for _, table := range tables {
		t := section{r: r, table: table}
		name, ok := t.text("name")
		switch {
		case !ok && !t.has("name"):
			t.fault("name", "missing", "a name for the zone, different from the others'")
		case len([]rune(name)) > longestName:
			t.fault("name", "no name that fits on a line", "up to 60 letters")
		case ok && slices.Contains(r.path, name):
			t.fault("name", "two zones have this name", "a name that no other zone has")
		}
		r.path = append(r.path, name)
	}
	var path []diffusion.Zone
	for i, name := range r.path { // all names first, for the owners of settings
		path = append(path, r.zone(section{r: r, table: tables[i], path: "zone." + name, zone: name}, name, s))
	}
	return path
}

func (r *reading) zone(t section, name string, s *Scenario) diffusion.Zone {
	z := diffusion.Zone{Name: name}
	c := &machine.Chamber{Name: name}
	long := strict.Limits{Min: 1e-3, Max: 1e4, Unit: "m"}
	if t.has("length") {
		z.Length, _ = t.quantity("length", quantity.Length(), long)
	}
	z.Air.Temperature = t.airTemperature(s.Room.Temperature)
	bore, tube := t.quantity("bore", quantity.Length(), strict.Limits{Min: 1e-4, Max: 1, Unit: "mm"})
	if tube {
		z.Film.Flow, z.Film.Bore = film.Annulus, bore
	}
	led := r.shape(t, c, 2*s.Model.Radius)
	if !t.has("length") {
		r.lengthOf(t, &z, led)
	}
	z.Contact = r.contact(t, led)
	air := t.sub("air")
	r.air(t, air, &z, s.Room)
	r.film(t, air, &z, s)
	r.flow(t, air, &z, s)
	led.pass(&z, t, &s.Model)
	r.shared(air, c, &z, s)
	r.chamber(t, c)
	r.chambers = append(r.chambers, *c)
	return z
}

// dewPoints are the dew or frost points of air that are taken [K]: -60 °C to 100 °C.
func dewPoints() strict.Limits { return strict.Limits{Min: 213.15, Max: 373.15, Unit: "°C"} }

// air reads the state of a zone's air.
func (r *reading) air(zone, t section, z *diffusion.Zone, room Room) {
	at, place := t, "temperature"
	z.Air.VapourPressure = room.VapourPressure
	switch state := t.atMostOne("dew_point", "humidity", "vapour_pressure"); state {
	case "dew_point":
		dew, ok := t.quantity(state, quantity.Temperature(), dewPoints())
		if ok {
			z.Air.VapourPressure = humidair.SaturationPressure(dew)
		}
		place = state
	case "humidity":
		humidity, _ := t.quantity(state, quantity.Humidity(), Humidities())
		z.Air = diffusion.HeldAt(humidity, z.Air.Temperature)
		place = state
	case "vapour_pressure":
		z.Air.VapourPressure, _ = t.quantity(state, quantity.Pressure(), strict.Limits{Max: 1.2e5, Unit: "Pa"})
		place = state
	default:
		at = zone
		r.assume(zone.name("air") + ": room air, at the temperature of the zone")
	}
	at.soundAir(place, z.Air, room.Pressure)
}

// soundAir reports air that cannot be, at the key that made it so.
func (s section) soundAir(key string, air diffusion.Air, pressure float64) {
	const slack = 1e-9
	saturated := humidair.SaturationPressure(air.Temperature)
	show := func(pv float64) string { return quantity.Pressure().Format(pv, "Pa", 4) }
	switch {
	case air.VapourPressure > diffusion.MostVapour*pressure:
		s.fault(key, "a vapour pressure of "+show(air.VapourPressure)+" leaves no air at "+show(pressure), "up to 99 % of the room's pressure")
	case air.VapourPressure > saturated*(1+slack):
		s.fault(key, "air above saturation: its vapour pressure is "+show(air.VapourPressure),
			"up to "+show(saturated)+" at "+quantity.Temperature().Format(air.Temperature, "°C", 5)+
				", a dew point no higher than the air's temperature")
	}
}

// fastestAir bounds the speed of air past the strand [m/s].
const fastestAir = 100

// leastBore is the narrowest bore around a strand in diameters: twice as far from the strand as package film asks.
const leastBore = 1 + 2e-6

// coefficients reads what is known of the exchange between strand and air at any flow.
func (s section) coefficients(f *diffusion.Film) {
	f.Heat, _ = s.quantity("h", quantity.HeatTransfer(), strict.Limits{Min: 0.1, Max: 1000, Unit: "W/m2/K"})
	f.Mass, _ = s.quantity("k_m", quantity.Speed(), strict.Limits{Min: 1e-5, Max: 1, Unit: "m/s"})
	f.Emissivity = s.number("emissivity", strict.Limits{Min: 0, Max: 1}, emissivity)
	f.Vertical = s.truth("vertical", false)
}

// passing reads how fast air goes past the strand, and which way. Moving tells that a speed is given.
func (s section) passing() (speed float64, moving bool, past string) {
	speed, moving = s.quantity("speed", quantity.Speed(), strict.Limits{Min: 1e-3, Max: fastestAir, Unit: "m/s"})
	past, given := s.choice("past", "across", "along")
	if given && !s.has("speed") {
		s.fault("past", "still air passes in no direction", "past together with speed")
	}
	return speed, moving, past
}

// film reads what sets the exchange between strand and air.
func (r *reading) film(t, air section, z *diffusion.Zone, s *Scenario) {
	f := &z.Film
	t.coefficients(f)
	speed, moving, past := air.passing()
	bore, tube := f.Bore, f.Flow == film.Annulus
	if tube && bore < leastBore*2*s.Model.Radius {
		t.fault("bore", "the strand does not fit", "more than the diameter, "+quantity.Length().Format(2*s.Model.Radius, "mm", 5)+", by two millionths of it or more")
	}
	switch {
	case past == "across" && air.has("speed") && t.has("bore"):
		air.fault("past", "air in a bore runs along the strand", "along")
	case moving && past == "" && !tube:
		r.assume(air.name("past") + ": along")
	}
	f.AirSpeed = speed
	switch {
	case tube:
	case moving && past == "across":
		f.Flow = film.Across
	case moving:
		f.Flow = film.Along
	}
}
