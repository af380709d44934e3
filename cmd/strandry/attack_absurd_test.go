package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
)

// TestAttackAbsurdDesigns states what cannot be: it is refused at its key with what is allowed, or answered in finite numbers.
func TestAttackAbsurdDesigns(t *testing.T) {
	t.Parallel()
	all := absurdities()
	require.Len(t, all, 62)
	for _, c := range sampled(attackDice(t, 2, 0), all, samples.Of(3, 12, len(all))) {
		t.Run(strings.NewReplacer("/", "_", " ", "_").Replace(c.name), func(t *testing.T) {
			defer tellDraft(t, c.draft)
			file := c.draft.file(t)
			for _, args := range [][]string{{"run", file}, {"run", "--json", file}} {
				s := fired(t, 2, args...)
				if s.status != answered {
					require.Equal(t, failed, s.status)
					require.Contains(t, s.errOut, filepath.Base(file))
					require.Contains(t, s.errOut, c.key)
					require.Regexp(t, "allowed|missing|up to|TOML|text|number", s.errOut)
					continue
				}
				if args[1] == "--json" {
					answerOf(t, s.out).ordered(t)
				}
			}
		})
	}
}

// absurdity is a design that nobody can build, and the key, or a part of the message, that says so where it is refused.
type absurdity struct {
	name, key string
	draft     draft
}

// plain is a sound design that answers quickly.
func plain() draft {
	var d draft
	d.add("strand", "[strand]")
	d.put("material", `"petg"`)
	d.put("moisture", `"0.3 %"`)
	d.add("feed", "[feed]")
	d.put("speed", `"1 mm/s"`)
	d.add("room", "[room]")
	d.put("temperature", `"23 °C"`)
	d.add("nozzle", "[nozzle]")
	d.add("numerics", "[numerics]")
	d.add("zone.oven", "[[zone]]")
	d.put("name", `"oven"`)
	d.put("length", `"3 m"`)
	d.put("temperature", `"65 °C"`)
	d.put("air.dew_point", `"-20 °C"`)
	return d
}

// absurdities are the 62.
func absurdities() []absurdity {
	var all []absurdity
	for _, c := range [][2]string{
		{"zone.oven.length", `"1e300 m"`}, {"zone.oven.length", `"0 m"`}, {"zone.oven.length", `"-3 m"`}, {"zone.oven.length", `"nan m"`},
		{"zone.oven.length", `"inf m"`}, {"zone.oven.length", `"1e-300 m"`}, {"zone.oven.length", `nan`}, {"zone.oven.length", `"1e400 m"`},
		{"zone.oven.length", `""`}, {"zone.oven.length", `[]`},
		{"zone.oven.temperature", `"-300 °C"`}, {"zone.oven.temperature", `"-1 K"`}, {"zone.oven.temperature", `"0 K"`}, {"zone.oven.temperature", `"1e9 °C"`},
		{"zone.oven.temperature", `"nan °C"`}, {"zone.oven.temperature", `"299 °C"`}, {"zone.oven.temperature", `"-40 °C"`},
		{"zone.oven.air.dew_point", `"90 °C"`}, {"zone.oven.air.dew_point", `"-274 °C"`}, {"zone.oven.air.dew_point", `"-inf °C"`},
		{"room.humidity", `"1e300 %"`}, {"zone.oven.air.flow", `"0 L/min"`}, {"zone.oven.air.flow", `"1e-300 L/min"`}, {"zone.oven.air.flow", `"-1 L/min"`},
		{"zone.oven.air.flow", `"1e300 L/min"`}, {"zone.oven.air.flow", `"0.0001 L/min"`}, {"zone.oven.air.speed", `"1e8 m/s"`}, {"zone.oven.air.speed", `"-1 m/s"`},
		{"zone.oven.bore", `"1.75 mm"`}, {"zone.oven.bore", `"0 mm"`}, {"zone.oven.bore", `"1.7500001 mm"`}, {"zone.oven.h", `"0 W/m2/K"`}, {"zone.oven.k_m", `"1e300 m/s"`},
		{"zone.oven.emissivity", `-0.5`}, {"zone.oven.emissivity", `1e308`}, {"zone.oven.exposed", `"0 %"`}, {"zone.oven.exposed", `"101 %"`},
		{"zone.oven.contact", `{ share = "99 %", arcs = 1e18, moves = false }`}, {"zone.oven.contact", `{ share = "99 %", arcs = 8, moves = false }`},
		{"feed.speed", `"1e-300 mm/s"`}, {"feed.speed", `"0 mm/s"`}, {"feed.speed", `"-2 mm/s"`}, {"feed.speed", `"3e8 m/s"`}, {"feed.speed", `"nan mm/s"`}, {"room.temperature", `"-300 °C"`},
		{"strand.diameter", `"0 mm"`}, {"strand.diameter", `"1e300 mm"`}, {"strand.diameter", `"-1.75 mm"`}, {"strand.moisture", `"1e6 %"`}, {"strand.moisture", `"-1 %"`}, {"strand.moisture", `"1e-300 %"`},
		{"strand.limit", `"0 %"`}, {"strand.limit", `"1e-300 %"`}, {"strand.properties.diffusivity.value", `"0 m2/s"`}, {"strand.properties.diffusivity.beta", `1e300`},
		{"nozzle.temperature", `"-400 °C"`}, {"room.pressure", `"0 Pa"`}, {"numerics.tolerance", `0`}, {"numerics.resolution", `1e300`},
	} {
		parts := strings.Split(c[0], ".")
		all = append(all, absurdity{c[0] + " = " + c[1], parts[len(parts)-1], plain().with(c[0], c[1])})
	}
	return append(all, absurdity{"5,000 zones", "zone", manyOf(5000, "zone.z%d", "[[zone]]\nname = \"z%d\"", "length", `"2 mm"`)},
		absurdity{"300 storages", "storage", manyOf(300, "strand.storage.%d", "[[strand.storage]]\n# %d", "duration", `"100 h"`)},
		absurdity{"no zone that dries", "zone", draft{plain().parts[:5]}})
}

// manyOf is the plain design with so many more parts of a kind.
func manyOf(count int, path, head, key, value string) draft {
	d := plain().with("numerics.resolution", "2.4").with("numerics.tolerance", "0.1")
	for i := range count {
		d.add(fmt.Sprintf(path, i), fmt.Sprintf(head, i))
		d.put(key, value)
	}
	return d
}
