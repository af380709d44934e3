package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials"
)

// draft is the text of a scenario by its keys, of which any can be set anew.
type draft struct{ parts []part }

type part struct {
	path string // of its keys, by the names of zones
	head string // as it stands in the file
	keys []keyed
}

// keyed is a key of a part with its value as TOML.
type keyed struct{ key, value string }

func (d *draft) add(path, head string) { d.parts = append(d.parts, part{path: path, head: head}) }

// put adds a key to the last part.
func (d *draft) put(key, value string) {
	last := &d.parts[len(d.parts)-1]
	last.keys = append(last.keys, keyed{key, value})
}

// with is the draft with a key set anew, named as a sweep names it.
func (d draft) with(name, value string) draft {
	out := draft{slices.Clone(d.parts)}
	best := -1
	for i, p := range out.parts {
		if strings.HasPrefix(name, p.path+".") && (best < 0 || len(p.path) > len(out.parts[best].path)) {
			best = i
		}
	}
	p := &out.parts[best]
	p.keys = slices.Clone(p.keys)
	key := name[len(p.path)+1:]
	for i := range p.keys {
		if p.keys[i].key == key {
			p.keys[i].value = value
			return out
		}
	}
	p.keys = append(p.keys, keyed{key, value})
	return out
}

func (d draft) text() string {
	var text strings.Builder
	for _, p := range d.parts {
		fmt.Fprintln(&text, p.head)
		for _, k := range p.keys {
			fmt.Fprintf(&text, "%s = %s\n", k.key, k.value)
		}
	}
	return text.String()
}

// file writes the draft to a folder of the test.
func (d draft) file(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "draft.toml")
	require.NoError(t, os.WriteFile(path, []byte(d.text()), 0o600))
	return path
}

// drafter throws the dice for a draft.
type drafter struct {
	*rand.Rand
	d draft
}

func (r *drafter) log(low, high float64) float64    { return low * math.Pow(high/low, r.Float64()) }
func (r *drafter) linear(low, high float64) float64 { return low + (high-low)*r.Float64() }
func (r *drafter) chance(p float64) bool            { return r.Float64() < p }

func (r *drafter) one(words ...string) string { return strconv.Quote(words[r.IntN(len(words))]) }

// quantity is a value with its unit, of few digits.
func (r *drafter) quantity(x float64, unit string) string { return fmt.Sprintf(`"%.4g %s"`, x, unit) }

// drafted is a random design: all materials, all forms of air and of contact, films given and computed, all feeds, storages, properties
// and settings, most of them sound, some of them not.
func drafted(dice *rand.Rand) draft {
	r := &drafter{Rand: dice}
	hot := r.chance(0.4) // up to what a file may state, in polymers that do not melt
	diameter := r.log(0.3, 4)
	r.strand(diameter, hot)
	r.feed()
	r.d.add("room", "[room]")
	room := r.linear(15, 30)
	r.d.put("temperature", r.quantity(room, "°C"))
	r.d.put("humidity", r.quantity(r.linear(0, 80), "%"))
	if r.chance(0.1) {
		r.d.put("pressure", r.quantity(r.linear(60, 110), "kPa"))
	}
	r.d.add("nozzle", "[nozzle]")
	if hot {
		r.d.put("temperature", `"400 °C"`)
	}
	r.d.add("numerics", "[numerics]")
	if r.chance(0.25) {
		r.numerics()
	}
	for i := range 1 + r.IntN(4) {
		r.zone([]string{"hot", "warm box", "a=b", "Führung"}[i], diameter, room, hot)
	}
	return r.d
}

func (r *drafter) strand(diameter float64, hot bool) {
	names := materials.Names()
	r.d.add("strand", "[strand]")
	r.d.put("material", r.one(names...))
	r.d.put("diameter", r.quantity(diameter, "mm"))
	switch r.IntN(4) {
	case 0:
		r.d.put("moisture", r.quantity(r.linear(0, 8), "%"))
	case 1:
		r.d.put("room.humidity", r.quantity(r.linear(0, 100), "%"))
	case 2:
		r.d.put("moisture", `"0 %"`)
	}
	if r.chance(0.2) {
		r.d.put("limit", r.quantity(r.log(1e-4, 5), "%"))
	}
	if hot {
		r.d.put("properties.melting", `"450 °C"`)
	}
	if r.chance(0.2) {
		r.d.put("properties.diffusivity.value", r.quantity(r.log(1e-16, 1e-9), "m2/s"))
	}
	if r.chance(0.1) {
		r.d.put("properties.diffusivity.beta", fmt.Sprintf("%.3g", r.linear(0, 60)))
	}
	for i := range max(0, r.IntN(5)-2) {
		r.d.add(fmt.Sprintf("strand.storage.%d", i+1), "[[strand.storage]]")
		r.d.put("duration", r.quantity(r.log(0.01, 1e4), "h"))
		r.d.put("temperature", r.quantity(r.linear(-5, 60), "°C"))
		r.d.put("humidity", r.quantity(r.linear(0, 100), "%"))
	}
}

func (r *drafter) feed() {
	r.d.add("feed", "[feed]")
	switch r.IntN(6) {
	case 0:
		r.d.put("flow", r.quantity(r.log(0.1, 50), "mm3/s"))
	case 1:
		r.d.put("bead", fmt.Sprintf(`{ width = "0.45 mm", height = "0.2 mm", speed = "%.3g mm/s" }`, r.log(2, 300)))
	default:
		r.d.put("speed", r.quantity(r.log(0.01, 20), "mm/s"))
	}
}

func (r *drafter) numerics() {
	r.d.put("resolution", fmt.Sprintf("%.3g", r.log(2.4, 9)))
	r.d.put("tolerance", fmt.Sprintf("%.3g", r.log(1e-4, 0.1)))
	r.d.put("heat", r.one("auto", "lumped", "resolved"))
	if r.chance(0.2) {
		r.d.put("evaporation", "false")
	}
}

func (r *drafter) zone(name string, diameter, room float64, hot bool) {
	r.d.add("zone."+name, "[[zone]]")
	r.d.put("name", strconv.Quote(name))
	r.d.put("length", r.quantity(r.log(2e-3, 100), "m"))
	celsius := r.linear(room, 110)
	if hot {
		celsius = r.linear(-30, 290)
	}
	if r.chance(0.8) {
		r.d.put("temperature", r.quantity(celsius, "°C"))
	} else {
		celsius = room
	}
	r.contact()
	bore := r.chance(0.3)
	if bore {
		r.d.put("bore", r.quantity(diameter*r.log(1.02, 20), "mm"))
	}
	r.state(celsius)
	r.flow(bore)
	r.film()
}

func (r *drafter) contact() {
	switch r.IntN(16) { // few that keep their place, which take long
	case 0:
		r.d.put("exposed", r.quantity(r.linear(1, 100), "%"))
	case 1:
		r.d.put("contact", fmt.Sprintf(`{ share = "%.3g %%", arcs = %d, moves = false }`, r.linear(0.5, 99), 1+r.IntN(8)))
	case 2, 3, 4:
		r.d.put("contact", fmt.Sprintf(`{ share = "%.3g %%", moves = true }`, r.linear(0.5, 99)))
	}
}

// state is the air's, one time in ten at random, so that it may be none.
func (r *drafter) state(celsius float64) {
	most := celsius
	if r.chance(0.1) {
		most = 99
	}
	switch r.IntN(4) {
	case 0:
		r.d.put("air.humidity", r.quantity(r.log(0.01, 100), "%"))
	case 1:
		r.d.put("air.dew_point", r.quantity(r.linear(-59, min(99, most)), "°C"))
	case 2:
		r.d.put("air.vapour_pressure", r.quantity(r.log(0.1, 5e3)-0.1, "Pa"))
	}
}

func (r *drafter) flow(bore bool) {
	switch r.IntN(5) {
	case 0:
		r.d.put("air.flow", r.quantity(r.log(1e-2, 100), "L/min"))
		r.d.put("air.direction", r.one("with", "against", "mixed"))
	case 1:
		r.d.put("air.speed", r.quantity(r.log(2e-3, 20), "m/s"))
		if !bore {
			r.d.put("air.past", r.one("across", "along"))
		}
	case 2:
		r.d.put("air.flow", `"unlimited"`)
	}
}

func (r *drafter) film() {
	if r.chance(0.15) {
		r.d.put("h", r.quantity(r.log(0.2, 900), "W/m2/K"))
	}
	if r.chance(0.15) {
		r.d.put("k_m", r.quantity(r.log(1e-5, 1), "m/s"))
	}
	if r.chance(0.2) {
		r.d.put("emissivity", fmt.Sprintf("%.2g", r.Float64()))
	}
	if r.chance(0.2) {
		r.d.put("vertical", "true")
	}
	if r.chance(0.1) {
		r.d.put("shape", `{ kind = "passes", span = "300 mm", roller = "60 mm" }`)
	}
}
