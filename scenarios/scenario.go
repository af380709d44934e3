package scenarios

import (
	"math"
	"path/filepath"
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/materials/humidair"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// Scenario is a file made into a design. All values are in SI.
type Scenario struct {
	File  string // as it was named to the reader, escaped where it cannot be printed
	Title string // the file's name when it has none

	diffusion.Design
	Settings diffusion.Settings
	Numerics bool // the file, or a setting, has [numerics]
	Room     Room

	Build   Build // for the studies; none of the three acts on the model
	Store   Store
	Opening Opening
	Machine machine.Machine // how the dryer is built, as far as it is stated; some of it acts on the model, such as what covers the strand

	Vary      []Axis
	Free      []Free // keys that may be chosen, for the study of the cheapest design
	Search    Search
	Uncertain []Uncertainty
	Checks    []Check // no study but that of the checks knows of them

	Assumed []string // what was not given and got a default, such as "strand.diameter: 1.75 mm"
	Taken   []string // of them, words for families of materials, such as "nylon", and what they were taken for
	Unused  []string // keys that were read and checked but do not act on the model yet

	document *Document
	set      []Setting
	keys     []Key
	words    []string
	varied   bool // Vary is not that of the document
	found    resolved
}

// Room is the air around the machine.
type Room struct {
	Temperature    float64 // [K]
	Humidity       float64 // relative, over liquid water or, below 0 °C, ice [-]
	Pressure       float64 // [Pa]
	VapourPressure float64 // [Pa]
}

// With returns the scenario with further settings laid over it; it is itself unchanged. The
// error is [strict.Faults].
func (s *Scenario) With(set ...Setting) (*Scenario, error) {
	out, err := s.document.scenario(s.found, slices.Concat(s.set, set))
	if err == nil && s.varied {
		out.Vary, out.varied = s.Vary, true
	}
	return out, err
}

// Keys lists the numbers of the scenario that a [Setting] may replace, in the
// order of reading, given or not; the material's properties are among them.
func (s *Scenario) Keys() []Key { return slices.Clone(s.keys) }

// Key is the one of [Scenario.Keys] with a name; ok is false where there is none.
func (s *Scenario) Key(name string) (k Key, ok bool) { return named(s.keys, name) }

func named(keys []Key, name string) (k Key, ok bool) {
	if i := slices.IndexFunc(keys, func(k Key) bool { return k.Name == name }); i >= 0 {
		return keys[i], true
	}
	return Key{}, false
}

// ZoneKey is the name of a key of the zone of the path with the given index, such as zone.drum.length for length.
func (s *Scenario) ZoneKey(zone int, key string) string {
	return "zone." + s.Model.Path[zone].Name + "." + key
}

// Document returns the text that the scenario was made from.
func (s *Scenario) Document() *Document { return s.document }

// AirTemperatures are the widest that are taken [K]: -40 °C to 300 °C.
func AirTemperatures() strict.Limits { return strict.Limits{Min: 233.15, Max: 573.15, Unit: "°C"} }

// Humidities are relative, 0 to 100 %.
func Humidities() strict.Limits { return strict.Limits{Min: 0, Max: 1, Unit: "%"} }

// scenario reads the whole file; what comes out is sound only if no fault is found.
func (r *reading) scenario(root section) *Scenario {
	file := r.document.File
	s := &Scenario{File: file, Title: strings.TrimSuffix(filepath.Base(file), ".toml")}
	if title, ok := root.text("title"); ok {
		s.Title = title
	}
	s.Room = r.room(root.sub("room"))
	m := &s.Design
	m.Pressure = s.Room.Pressure
	strand := root.sub("strand")
	if strand.table == nil && !root.has("strand") {
		root.fault("strand", "missing", "a table [strand] with at least a material")
	}
	r.strand(strand, s)
	if feed := root.sub("feed"); !root.has("feed") || !feed.absent() { // else a fault already
		m.Speed = r.feed(feed, m.Radius)
	}
	r.nozzle(root.sub("nozzle"), m)
	m.Path = r.zones(root, s)
	r.melts(&m.Material, m.NozzleTemperature, melted)
	s.Numerics = root.has("numerics")
	s.Settings = numerics(root.sub("numerics"))
	r.beside(root, s)
	r.construction(root, s)
	s.Vary = r.axesOf(root)
	s.Free = r.freeOf(root)
	s.Search = r.searching(root, s.Free)
	s.Uncertain = r.uncertain(root)
	s.Checks = r.checks(root)
	s.Assumed, s.Taken, s.Unused = r.assumed, r.taken, r.unused
	return s
}

func (r *reading) room(t section) Room {
	room := Room{
		Temperature: t.airTemperature(296.15),
		Humidity:    t.quantityOr("humidity", quantity.Humidity(), Humidities(), 0.5),
		Pressure: t.quantityOr("pressure", quantity.Pressure(),
			strict.Limits{Min: 5e4, Max: 1.2e5, Unit: "kPa"}, humidair.StandardPressure),
	}
	room.VapourPressure = humidair.VapourPressureAt(room.Humidity, room.Temperature)
	if room.VapourPressure > diffusion.MostVapour*room.Pressure {
		t.fault("humidity", "so hot and humid that no air is left in the room", "a vapour pressure of up to 99 % of the room's pressure")
	}
	return room
}

func (r *reading) nozzle(t section, m *diffusion.Design) {
	limits := strict.Limits{Min: 323.15, Max: 773.15, Unit: "°C"}
	m.NozzleTemperature = t.quantityOr("temperature", quantity.Temperature(), limits, m.Material.NozzleTemperature.Value)
}

// feed gives the speed of the strand [m/s] from one of three statements.
func (r *reading) feed(t section, radius float64) float64 {
	section := math.Pi * radius * radius
	switch t.atMostOne("speed", "flow", "bead") {
	case "speed":
		speed, ok := t.quantity("speed", quantity.Speed(), strict.Limits{})
		if ok {
			feedSpeed(t, "speed", speed)
		}
		return speed
	case "flow":
		flow, ok := t.quantity("flow", quantity.VolumeFlow(), strict.Limits{Unit: "mm3/s"})
		if ok {
			feedSpeed(t, "flow", flow/section)
		}
		return flow / section
	case "bead":
		b := t.sub("bead")
		width, w := b.required("width", quantity.Length(), strict.Limits{Min: 5e-5, Max: 0.05, Unit: "mm"})
		height, h := b.required("height", quantity.Length(), strict.Limits{Min: 1e-5, Max: 0.02, Unit: "mm"})
		speed, v := b.required("speed", quantity.Speed(), strict.Limits{Min: 1e-5, Max: 5, Unit: "mm/s"})
		speed *= width * height / section
		if w && h && v {
			feedSpeed(t, "bead", speed)
		}
		return speed
	}
	t.fault("", "how fast the strand runs is missing", "exactly one of speed, flow, bead in [feed]")
	return 0
}

// Slowest and fastest feed [m/s].
const slowest, fastest = 1e-6, 0.05

// feedSpeed reports a strand speed [m/s] that no feeder runs at.
func feedSpeed(t section, key string, speed float64) {
	const slack = 1e-12
	allowed := "a speed of the strand of 0.001 mm/s to 50 mm/s"
	switch {
	case speed < 0:
		t.fault(key, "the strand would run backwards", allowed)
	case speed == 0:
		t.fault(key, "a strand that stands still is a storage: state it as [[strand.storage]]", allowed)
	case speed > 1e6:
		t.fault(key, "the strand would run faster than sound", allowed)
	case speed < slowest*(1-slack) || speed > fastest*(1+slack):
		t.fault(key, "the strand would run at "+quantity.Speed().Format(speed, "mm/s", 4), allowed)
	}
}

func numerics(t section) diffusion.Settings {
	s := diffusion.DefaultSettings()
	s.Resolution = t.number("resolution", strict.Limits{Min: 2.4, Max: 60}, s.Resolution)
	s.Tolerance = t.number("tolerance", strict.Limits{Min: 1e-8, Max: 0.1}, s.Tolerance)
	s.WithoutEvaporation = !t.truth("evaporation", true)
	word, _ := t.choice("heat", "auto", "lumped", "resolved")
	switch word {
	case "lumped":
		s.Heat = diffusion.Lumped
	case "resolved":
		s.Heat = diffusion.Resolved
	}
	return s
}
