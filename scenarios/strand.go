package scenarios

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// strand reads [strand]: what runs, how thick, how wet, and where it lay.
func (r *reading) strand(t section, s *Scenario) {
	m := &s.Design
	known := r.body(t, &m.Model)
	r.start(t, s, known)
	m.Storage = r.storage(t, s.Room)
	r.limit(t, m, known)
}

// body reads what the strand is made of, and how thick it is; known tells that its material is.
func (r *reading) body(t section, m *diffusion.Model) (known bool) {
	m.Radius = t.quantityOr("diameter", quantity.Length(), strict.Limits{Min: 1e-4, Max: 0.01, Unit: "mm"}, 0.00175) / 2
	m.Material, known = r.material(t)
	r.properties(t, &m.Material)
	r.registerProperties(&m.Material)
	return known
}

// limit reads how wet the strand may be: a content, or for which purpose, which then names one of the material's own limits.
func (r *reading) limit(t section, m *diffusion.Design, known bool) {
	limits := strict.Limits{Max: maxContent, ExclusiveMin: true, Unit: "%"}
	words := []string{materials.Printing.String(), materials.Moulding.String()}
	content, stated, word := t.quantityOrWord(words, "limit", quantity.Fraction(), limits)
	if m.Purpose, _ = materials.PurposeOf(word); stated {
		m.Limit, m.LimitStated = content, true
		return
	}
	m.Limit = m.Material.Limit(m.Purpose).Value
	if !known {
		return
	}
	key := &r.keys[len(r.keys)-1]
	key.Value, key.Known = m.Limit, true
	if !t.has("limit") {
		r.assume(t.name("limit") + ": that for printing, " + quantity.Fraction().Format(m.Limit, "%", 6))
	}
}

// maxContent is the wettest strand that may be stated [kg/kg dry].
const maxContent = 0.5

// resolved is a polymer under the name it was found by, before inline properties. It spares
// the variants of a scenario the search.
type resolved struct {
	name    string
	polymer materials.Polymer
}

// material finds the polymer in the library or in a file.
func (r *reading) material(t section) (materials.Polymer, bool) {
	names := strings.Join(materials.Names(), ", ") + ", or the path of a material file that ends in .toml"
	if t.absent() {
		return materials.Polymer{}, false
	}
	r.words = append(r.words, t.name("material"))
	if !t.has("material") {
		t.fault("material", "missing", names)
		return materials.Polymer{}, false
	}
	name, ok := t.text("material")
	if !ok {
		return materials.Polymer{}, false
	}
	if name != r.found.name {
		name = r.understood(t.name("material"), name)
	}
	if name == r.found.name {
		return r.found.polymer, true
	}
	p, err := materials.Resolve(name, r.document.material)
	var unknown *materials.UnknownError
	var inside strict.Faults
	switch {
	case err == nil:
		r.found = resolved{name, p}
		return p, true
	case errors.As(err, &unknown):
		t.report("material", strict.Fault{Problem: "unknown material", Allowed: choices(unknown, names), Nearest: unknown.Nearest})
	case errors.As(err, &inside):
		t.fault("material", "the material file has faults", "")
		r.faults = append(r.faults, inside...)
	default:
		t.fault("material", err.Error(), names)
	}
	return materials.Polymer{}, false
}

// choices are the candidates for an unknown name, or all names.
func choices(unknown *materials.UnknownError, names string) string {
	if len(unknown.Candidates) > 0 {
		return unknown.Choices()
	}
	return names
}

// understood is the name that a material has in the library, or else the name as it is given. That a word for a family was taken
// for one of it is noted.
func (r *reading) understood(where, given string) string {
	name, taken, err := materials.Understood(strings.TrimSpace(given))
	if err != nil {
		return given
	}
	if taken != "" {
		r.taken = append(r.taken, where+": "+taken)
		r.assume(where + ": " + taken)
	}
	return name
}

// Materials are those of the library, and the scenario's own where it is none of them.
func (s *Scenario) Materials() ([]materials.Polymer, error) {
	all, err := materials.Library()
	if err != nil {
		return nil, err
	}
	own := &s.Model.Material
	if slices.ContainsFunc(all, func(p materials.Polymer) bool { return own.Same(&p) }) {
		return all, nil
	}
	return append(all, *own), nil
}

// Named is the scenario's material as its name alone gives it: as it was named, and without what the scenario lays over it.
func (s *Scenario) Named() (string, materials.Polymer) { return s.found.name, s.found.polymer }

// material opens a material file for [materials.Resolve].
func (d *Document) material(name string) ([]byte, error) {
	if d.open == nil {
		return nil, errors.New("a text without a folder cannot name material files")
	}
	return d.open(name)
}

// start reads how wet the strand is before its storage, all through.
func (r *reading) start(t section, s *Scenario, known bool) {
	m := &s.Design
	m.StartTemperature = s.Room.Temperature
	humidity := s.Room.Humidity
	switch t.atMostOne("moisture", "room") {
	case "moisture":
		m.Start, _ = t.quantity("moisture", quantity.Fraction(), strict.Limits{Max: maxContent, Unit: "%"})
		return
	case "room":
		room := t.sub("room")
		m.StartTemperature = room.airTemperature(m.StartTemperature)
		humidity = room.quantityOr("humidity", quantity.Humidity(), Humidities(), humidity)
	default:
		r.assume("strand.moisture: in equilibrium with the room")
	}
	if !known {
		return
	}
	m.StartActivity, m.Start = humidity, m.Material.Sorption.Content(humidity, m.StartTemperature)
	if !(m.Start >= 0 && m.Start <= maxContent) {
		t.fault("room", "the isotherm gives a content of "+quantity.Fraction().Format(m.Start, "%", 4), "0 % to 50 %")
	}
}

// storage reads [[strand.storage]]: a loose strand at rest in still air.
func (r *reading) storage(t section, room Room) []diffusion.Zone {
	var rests []diffusion.Zone
	durations := strict.Limits{Min: 1, Max: 10 * 365.25 * 86400, Unit: "h"}
	for i, table := range t.subs("storage") {
		rest := section{r: r, table: table, path: fmt.Sprintf("%s.%d", t.name("storage"), i+1)}
		z := diffusion.Zone{Name: fmt.Sprintf("storage %d", i+1), Film: StillAir()}
		z.Duration, _ = rest.required("duration", quantity.Duration(), durations)
		z.Air.Temperature = rest.airTemperature(room.Temperature)
		z.Air.VapourPressure = room.VapourPressure
		if humidity, ok := rest.quantity("humidity", quantity.Humidity(), Humidities()); ok {
			z.Air = diffusion.HeldAt(humidity, z.Air.Temperature)
		} else if !rest.has("humidity") {
			r.assume(rest.name("humidity") + ": room air, at the temperature of the storage")
		}
		rest.soundAir("temperature", z.Air, room.Pressure)
		rests = append(rests, z)
	}
	return rests
}
