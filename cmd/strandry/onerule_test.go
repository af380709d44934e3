package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/materials/text/quantity"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/advised"
	"strandry/scenarios/studies/buildlog"
	"strandry/scenarios/studies/needed"
	"strandry/scenarios/studies/size"
	"strandry/scenarios/studies/suits"
	"strandry/scenarios/studies/sweep"
)

// One design has one number, whoever is asked: run, JSON, the rows of a sweep, the check of size, the rows of suits, the points of
// needed and the advice, for all ways to state the air and its flow. One random design, or up to 400.
func TestOneDesignOneNumber(t *testing.T) {
	t.Parallel()
	count := samples.Of(1, 6, 400)
	answered := 0
	for i := range count {
		text := airy(rand.New(rand.NewPCG(11, uint64(i))))
		s, err := scenarios.Read("design.toml", []byte(text))
		require.NoError(t, err, text)
		a, err := assess(context.Background(), s)
		if err != nil {
			continue // too little air
		}
		answered++
		d := asked{t: t, text: text, scenario: s, answer: a}
		d.json()
		d.sweep()
		d.advice()
		d.suits(i%8 == 0)
		d.needed()
		if i%8 == samples.Of(0, 1, 1) { // one design answers to all
			d.size()
		}
	}
	require.Greater(t, answered, count*3/4)
}

// airy is a random design whose strand sets off in equilibrium with the room.
func airy(r *rand.Rand) string {
	log := func(low, high float64) float64 { return low * math.Pow(high/low, r.Float64()) }
	state := func() string {
		switch r.IntN(4) {
		case 0:
			return fmt.Sprintf(`humidity = "%.3g %%"`, log(0.02, 8))
		case 1:
			return fmt.Sprintf(`dew_point = "%.3g °C"`, -50+60*r.Float64())
		case 2:
			return fmt.Sprintf(`vapour_pressure = "%.3g Pa"`, log(5, 900))
		}
		return ""
	}
	zone := func(name string, length, celsius float64) string {
		bore, air := "", []string{state()}
		if r.IntN(2) == 0 {
			bore = fmt.Sprintf("bore = \"%.3g mm\"\n", log(4, 20))
		}
		switch r.IntN(4) {
		case 0:
			air = append(air, fmt.Sprintf(`flow = "%.3g L/min"`, log(1, 30)), fmt.Sprintf("direction = %q", []string{"with", "against", "mixed"}[r.IntN(3)]))
		case 1:
			air = append(air, fmt.Sprintf(`speed = "%.3g m/s"`, log(0.1, 3)))
		}
		if air[0] == "" {
			air = air[1:]
		}
		if len(air) > 0 {
			bore += "air = { " + strings.Join(air, ", ") + " }\n"
		}
		return fmt.Sprintf("[[zone]]\nname = %q\nlength = \"%.3g m\"\ntemperature = \"%.3g °C\"\n%s", name, length, celsius, bore)
	}
	return fmt.Sprintf("[strand]\nmaterial = %q\n[feed]\nspeed = \"%.3g mm/s\"\n[room]\ntemperature = \"%.3g °C\"\nhumidity = \"%.3g %%\"\n"+
		"[numerics]\nresolution = 5\ntolerance = 1e-3\n", []string{"pc", "petg", "pla", "abs", "pa12", "pom"}[r.IntN(6)],
		log(0.5, 5), 16+10*r.Float64(), 30+40*r.Float64()) +
		zone("hot", log(0.5, 30), 40+35*r.Float64()) + zone("warm", log(0.2, 5), 40+20*r.Float64()) + zone("guide", log(0.05, 0.6), 24)
}

// asked is a design and what run says of it.
type asked struct {
	t        *testing.T
	text     string
	scenario *scenarios.Scenario
	answer   *table.Answer
}

// ran is an assessment and how far another may be from it: not at all, but where it refined, as far as either is off.
type ran struct {
	*diffusion.Assessment
	told float64
}

// run assesses the design with settings over it.
func (d *asked) run(set ...scenarios.Setting) ran {
	s, err := d.scenario.With(set...)
	require.NoError(d.t, err, d.text)
	w := diffusion.NewMarch()
	a, err := w.Assess(&s.Design, s.Settings)
	require.NoError(d.t, err, d.text)
	if a.Settings == s.Settings {
		return ran{a, 1e-7*a.Nozzle.Mean + 1e-12} // settings are written with sixteen digits
	}
	_, off, err := w.NumericalError(&s.Model, s.Settings)
	require.NoError(d.t, err)
	return ran{a, off + a.NumericalError}
}

// same holds a number against an assessment.
func (d *asked) same(who string, mean float64, want ran) {
	d.t.Helper()
	require.False(d.t, math.IsNaN(mean))
	require.InDelta(d.t, want.Nozzle.Mean, mean, want.told, "%s\n%s", who, d.text)
}

func (d *asked) json() {
	var out bytes.Buffer
	require.NoError(d.t, table.WriteJSON(&out, d.answer))
	var doc struct {
		Moisture struct{ Mean, Low, High float64 }
	}
	require.NoError(d.t, json.Unmarshal(out.Bytes(), &doc))
	a := d.answer.Assessment
	require.Equal(d.t, [...]float64{a.Nozzle.Mean, a.Low, a.High}, [...]float64{doc.Moisture.Mean, doc.Moisture.Low, doc.Moisture.High})
}

func celsius(kelvin float64) string { return quantity.Temperature().Format(kelvin, "°C", 16) }

func (d *asked) sweep() {
	const from, to = 45, 80
	varied, err := d.scenario.Varied(fmt.Sprintf("zone.hot.temperature=%d °C,%d °C", from, to))
	require.NoError(d.t, err, d.text)
	work := sweep.Sweep{Scenario: varied, Quick: true, Workers: 1}
	grid, err := work.Run(d.t.Context())
	require.NoError(d.t, err)
	for i, at := range [...]string{"45 °C", "80 °C"} {
		if grid.Rows[i].Failed == "" {
			d.same("sweep at "+at, grid.Rows[i].Mean, d.run(scenarios.Setting{Key: "zone.hot.temperature", Value: at}))
		}
	}
}

// advice asks for each set of changes as it is written.
func (d *asked) advice() {
	v := &d.answer.Advice
	sets := v.Sets
	if v.Nearest != nil {
		sets = append(slices.Clone(sets), *v.Nearest)
	}
	for _, set := range sets {
		want := d.run(advised.Settings(set.Changes)...)
		d.same("advice", set.Mean, want)
		require.Equal(d.t, want.Probability, set.Probability, d.text)
	}
}

// other is the design with another material, each heated zone at its drying temperature.
func (d *asked) other(name string) ran {
	p, err := materials.Lookup(name)
	require.NoError(d.t, err)
	set := []scenarios.Setting{{Key: "strand.material", Value: name}}
	for _, z := range d.scenario.Model.Path {
		if z.Air.Temperature > d.scenario.Room.Temperature+5 {
			set = append(set, scenarios.Setting{Key: "zone." + z.Name + ".temperature", Value: celsius(p.HottestDrying())})
		}
	}
	return d.run(set...)
}

func (d *asked) suits(whole bool) {
	own := d.scenario.Model.Material
	w := diffusion.NewMarch()
	for _, name := range samples.Each(2, []string{own.ID, "peek", "pla"}) {
		p, err := materials.Lookup(name)
		require.NoError(d.t, err)
		a, err := w.Assess(suits.Design(d.scenario, &p, 0), d.scenario.Settings)
		require.NoError(d.t, err)
		d.same("suits: "+name, a.Nozzle.Mean, d.other(name))
	}
	if !whole {
		return
	}
	suited, err := suits.Find(d.t.Context(), d.scenario, []materials.Polymer{own}, 3600)
	require.NoError(d.t, err)
	row := suited.Soaked[0]
	if row.Failed != "" {
		return
	}
	want := d.other(own.ID)
	d.same("suits", row.Mean, want)
	require.Equal(d.t, want.Verdict, row.Verdict)
}

// needed gives the length at which a run is at the limit.
func (d *asked) needed() {
	const hot, speed = 348.15, 0.7e-3
	s := d.scenario
	r := needed.Request{Temperatures: []float64{hot}, Speeds: []float64{speed}, Settings: s.Settings}
	found, err := needed.Find(d.t.Context(), s, r)
	if err != nil || found.Unanswered > 0 || found.Lengths[0][0] <= size.Shortest {
		return
	}
	a := d.run(scenarios.Setting{Key: "zone.hot.temperature", Value: celsius(hot)}, scenarios.Setting{Key: "feed.speed", Value: "0.7 mm/s"},
		scenarios.Setting{Key: "zone.hot.length", Value: quantity.Length().Format(found.Lengths[0][0], "m", 16)})
	require.InDelta(d.t, s.Limit, a.Nozzle.Mean, a.NumericalError+a.told+1e-5*s.Limit, d.text)
}

// size checks its own value as run does.
func (d *asked) size() {
	found, err := size.Find(diffusion.NewMarch(), d.scenario, size.Request{Key: "zone.hot.temperature"})
	if err != nil {
		return
	}
	want := d.run(found.Setting)
	require.Equal(d.t, want.Nozzle, found.Check.Nozzle)
	require.Equal(d.t, want.Verdict, found.Check.Verdict)
	if found.Outcome == size.Met {
		require.InDelta(d.t, d.scenario.Limit, want.Nozzle.Mean, want.NumericalError+want.told+1e-4*want.Nozzle.Mean, d.text)
	}
}

// A controller that holds the humidity: the length for one material at one temperature is one in all the studies of
// a build log, the search, the figure over temperature and the materials.
func TestOneLengthInABuildLog(t *testing.T) {
	if testing.Short() {
		t.Skip("long; others meet the same goroutines")
	}
	t.Parallel()
	text, err := scenarios.DemoText("clear-cover")
	require.NoError(t, err)
	before := string(text)
	humid := strings.Replace(before, `dew_point = "-10 °C"`, `humidity = "1.5 %"`, 1)
	humid = strings.Replace(humid, `temperature = "115 °C"`, `temperature = "90 °C"`, 1)
	require.NotEqual(t, before, humid)
	s, err := scenarios.Read("clear-cover.toml", []byte(humid))
	require.NoError(t, err)
	suited, err := suits.Find(t.Context(), s, []materials.Polymer{s.Model.Material}, buildlog.RoomTime)
	require.NoError(t, err)
	lengths, err := needed.Find(t.Context(), s, needed.Usual(s, 0))
	require.NoError(t, err)
	hot, err := s.With(scenarios.Setting{Key: "zone.oven.temperature", Value: "110 °C"})
	require.NoError(t, err)
	answer, err := size.Find(diffusion.NewMarch(), hot, size.Request{Key: "zone.oven.length"})
	require.NoError(t, err)
	require.Equal(t, size.Met, answer.Outcome)
	sought := answer.Value
	row := suited.Soaked[0]
	require.InDelta(t, 383.15, row.Heated, 1e-9)
	require.InEpsilon(t, sought, row.Needed.Value, 1e-3)
	found := false
	for i, kelvin := range lengths.Temperatures {
		for k, speed := range lengths.Speeds {
			if math.Abs(kelvin-383.15) < 1e-6 && speed == s.Model.Speed {
				found = true
				require.InEpsilon(t, sought, lengths.Lengths[k][i], 0.01) // at coarser steps
			}
		}
	}
	require.True(t, found)
}

// What stays of the air is said where it matters.
func TestRuleOfTheAirIsSaid(t *testing.T) {
	if testing.Short() {
		t.Skip("long; others meet the same goroutines")
	}
	text, err := scenarios.DemoText("clear-cover")
	require.NoError(t, err)
	const held = "At another temperature the air of oven keeps its relative humidity, which a controller holds;"
	file := filepath.Join(t.TempDir(), "held.toml")
	require.NoError(t, os.WriteFile(file, bytes.Replace(text, []byte(`dew_point = "-10 °C"`), []byte(`humidity = "1 %"`), 1), 0o600))
	for _, args := range [][]string{{"run", "--full", file}, {"suits", file, "--material", "pc"}, {"size", file, "--for", "zone.oven.temperature"}} {
		require.Contains(t, unwrapped(mustAnswer(t, args...)), held)
	}
	require.Contains(t, unwrapped(mustAnswer(t, "suits", "--demo", "clear-cover", "--material", "pc")),
		"At another temperature the air of a zone keeps the vapour that it is supplied with.")
	require.NotContains(t, unwrapped(mustAnswer(t, "run", "--full", "--demo", "clear-cover")), "At another temperature")
}
