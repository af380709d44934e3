package figure

import (
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials/humidair"
	"strandry/plots/words"
	"strandry/scenarios"
)

// Setup is what a figure holds for, in a few words each: material, feed, air and start. What the figure varies is left out.
type Setup struct {
	Strand string // such as "PA6, 1.75 mm"
	Feed   string // such as "2 mm/s"
	Zone   string // that the design dries with
	Length string // of it
	Heat   string // temperature of its air
	Air    string // its moisture, such as "dew point -20 °C"
	Start  string // such as "starts at 2.5 %"
}

// setupOf puts a scenario in words. Where no march has an answer, so that nobody can tell which zone it dries with, the zones are left out.
func setupOf(s *scenarios.Scenario) Setup {
	m := &s.Design
	out := Setup{Strand: m.Material.Name + ", " + words.Digits(2000*m.Radius, 3) + words.NBSP + "mm", Feed: words.Speed(m.Speed), Start: startOf(m)}
	if zone, err := advice.DryerOf(diffusion.NewMarch(), m, s.Settings); err == nil {
		z := &m.Path[zone]
		out.Zone, out.Length, out.Heat, out.Air = z.Name, words.Metres(z.Length), words.Celsius(z.Air.Temperature), moistureOf(s, z)
	}
	return out
}

// moistureOf is how moist the air of a zone is, in words.
func moistureOf(s *scenarios.Scenario, z *diffusion.Zone) string {
	const same, least = 1e-6, 1e-3
	vapour, room := z.Air.VapourPressure, s.Room.VapourPressure
	switch {
	case z.Air.Held > 0:
		return "held at " + words.Digits(100*z.Air.Held, 2) + words.NBSP + "% humidity"
	case vapour < least:
		return "no vapour"
	case vapour > room*(1-same) && vapour < room*(1+same):
		return "room air"
	}
	return "dew point " + words.Celsius(humidair.DewPoint(vapour))
}

func startOf(m *diffusion.Design) string {
	if len(m.Storage) > 0 {
		return "starts as it lay"
	}
	return "starts at " + words.Percent(m.Start)
}

// parts are what is left of it, each a part of a line.
func (t Setup) parts() []string {
	place := t.Length
	if t.Heat != "" {
		place = strings.TrimSpace(place + " at " + t.Heat)
	}
	if place != "" {
		place = strings.TrimSpace(words.Clipped(t.Zone, 16) + " " + place)
	}
	return told(t.Strand, t.Feed, strings.Join(told(place, t.Air), ", "), t.Start)
}

// told are the texts that are not empty.
func told(all ...string) []string {
	return slices.DeleteFunc(all, func(text string) bool { return text == "" })
}

// without leaves out what a key varies.
func (t Setup) without(key scenarios.Key) Setup {
	name := key.Name
	switch {
	case strings.HasPrefix(name, "strand.material"), strings.HasPrefix(name, "strand.diameter"):
		t.Strand = ""
	case strings.HasPrefix(name, "strand."):
		t.Start = ""
	case strings.HasPrefix(name, "feed."):
		t.Feed = ""
	case strings.HasPrefix(name, "room."):
		t.Air, t.Start = "", ""
	case key.Zone == t.Zone && strings.HasSuffix(name, ".length"):
		t.Length = ""
	case key.Zone == t.Zone && strings.HasSuffix(name, ".temperature"):
		t.Heat = ""
	case key.Zone == t.Zone && strings.Contains(name, ".air"):
		t.Air = ""
	}
	return t
}
