package scenarios

import (
	_ "embed"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/materials"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
	"strandry/scenarios/masses"
)

//go:embed weighings.toml
var weighingsTemplate string // read only

// WeighingsTemplate returns a file of weighings with every key of the format, explained, to start from. It reads as it stands beside a
// table of masses that is called as it says.
func WeighingsTemplate() []byte { return []byte(weighingsTemplate) }

// Weighings are the masses of a strand at rest in known air, and what is known of it, in SI.
type Weighings struct {
	File, Title string // as it was named to the reader, escaped where it cannot be printed; the file's name where it has no title

	Model diffusion.Model // radius, material, storage and pressure; StartTemperature is that of the room; no start and no path
	Room  Room
	Scale Scale
	Beta  BetaChoice
	Runs  []Run // one or more
	// Machine is a scenario whose checks are of a strand of the same spool, and count too; nil for none.
	Machine *Scenario
	Plan    Planned // of [OpenPlan] and [ReadPlan] alone, else zero

	path    string
	found   resolved
	unnamed strict.Faults // of a plan: its runs that name no table

	Assumed []string // what was not given and got a default, such as "strand.diameter: 1.75 mm"
	Taken   []string // of them, words for families of materials, such as "nylon", and what they were taken for
	Noted   []string // what was read otherwise than it may have been meant: columns left out, masses that are much for a strand
}

// Scale is what is known of the scale.
type Scale struct {
	Resolution float64 // the step in which it shows a mass [kg], above 0
	Stated     bool    // else Resolution is the smallest step seen
	Drift      float64 // how fast it may drift either way, nine times in ten [kg/s]: 0 for not at all, +Inf where that is to be fitted without a bound
}

// BetaChoice is whether the growth of the diffusivity with the content is fitted too.
type BetaChoice int

const (
	// WhereTold fits it where the masses tell it.
	WhereTold BetaChoice = iota
	// Fitted fits it in any case.
	Fitted
	// Fixed keeps that of the material.
	Fixed
)

func (b BetaChoice) String() string {
	return [...]string{"where the masses tell it", "fitted", "fixed"}[b]
}

// Run is one series of weighings in one air.
type Run struct {
	File string         // the table of masses, as the file of weighings names it
	Sum  string         // SHA-256 of the table's bytes, hexadecimal
	Zone diffusion.Zone // air and film; called as the table without its ending; its duration is the last time

	Start        float64 // content before the storage, all through, 0 to 0.5 [kg/kg dry]; zero where it is not known
	StartKnown   bool
	DryMass      float64 // of the strand that is weighed [kg], above 0; zero where it is not known
	DryMassKnown bool

	Points []Weighing // four or more, in order of time; two may be at one time
}

// Weighing is one mass.
type Weighing struct {
	Time float64 // since the strand came into the run's air [s], 0 or later
	Mass float64 // shown by the scale [kg], above 0
	Line int     // of the table, from 1
}

// OpenWeighings reads a file of weighings. Tables of masses and material files that it names are looked for from its folder.
// The error is [strict.Faults]: every fault of all files in one go.
func OpenWeighings(path string) (*Weighings, error) {
	text, err := Text(path)
	if err != nil {
		return nil, strict.Faults{{File: path, Problem: err.Error(), Nearest: neighbour(path, err)}}
	}
	return ReadWeighings(path, text, func(name string) ([]byte, error) {
		return whole(beside(path, name), masses.MaxSize)
	})
}

// Named is the material as its name alone gives it, without what [strand.properties] lays over it, and that name: one of the library, or the path of a
// file from where the program was started.
func (w *Weighings) Named() (string, materials.Polymer) {
	name := w.found.name
	if strings.HasSuffix(name, ".toml") {
		name = beside(w.path, name)
	}
	return name, w.found.polymer
}

// beside is the path of a file that another names.
func beside(path, name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(filepath.Dir(path), name)
}

// ReadWeighings makes weighings of a text. It opens no file by itself: open gives the bytes of tables and material files by the names
// that the text has for them; nil where there are none. The error is [strict.Faults].
func ReadWeighings(file string, text []byte, open func(name string) ([]byte, error)) (*Weighings, error) {
	return readWeighings(file, text, open, false)
}

// readWeighings reads a file of weighings, or a plan of some.
func readWeighings(file string, text []byte, open func(name string) ([]byte, error), planned bool) (*Weighings, error) {
	d, err := Parse(file, text)
	if err != nil {
		return nil, err
	}
	d.open = open
	root, reader := d.read.Table()
	r := &reading{document: d, planned: planned}
	top := section{r: r, table: root}
	if !top.has("run") && (top.has("zone") || top.has("feed")) {
		return nil, strict.Faults{{File: file, Problem: "this is a scenario of a strand that runs", Allowed: "weighings of one at rest, each [[run]] with its table of masses; strandry new --weighings FILE writes a file to start from"}}
	}
	w := r.weighings(top)
	w.path, w.found = file, r.found
	if err := r.finish(reader); err != nil {
		return nil, err
	}
	return w, nil
}

// weighings reads the whole file; what comes out is sound only if no fault is found.
func (r *reading) weighings(root section) *Weighings {
	w := &Weighings{File: r.document.File, Title: strings.TrimSuffix(filepath.Base(r.document.File), ".toml")}
	if title, ok := root.text("title"); ok {
		w.Title = title
	}
	w.Room = r.room(root.sub("room"))
	m := &w.Model
	m.Pressure, m.StartTemperature = w.Room.Pressure, w.Room.Temperature
	strand := root.sub("strand")
	if strand.table == nil && !root.has("strand") {
		root.fault("strand", "missing", "a table [strand] with at least a material")
	}
	r.body(strand, m)
	m.Storage = r.storage(strand, w.Room)
	r.runs(root, w)
	r.melts(&m.Material, m.Material.NozzleTemperature.Value, meltedAtRest)
	r.machine(root, w)
	r.scale(root.sub("scale"), w)
	w.Beta = fitOf(root.sub("fit"))
	asked := r.asked(root.sub("plan"))
	if r.planned {
		r.plan(w, asked)
	}
	w.Assumed, w.Taken = r.assumed, r.taken
	return w
}

// fitOf reads what is to be fitted.
func fitOf(t section) BetaChoice {
	switch word, _ := t.choice("beta", "fitted", "fixed"); word {
	case "fitted":
		return Fitted
	case "fixed":
		return Fixed
	}
	return WhereTold
}

// scale reads what is known of the scale, once the masses are known.
func (r *reading) scale(t section, w *Weighings) {
	const coarsest, fastest = 0.1, 0.1 / 3600 // [kg], [kg/s]
	given := t.has("resolution")
	w.Scale.Resolution, w.Scale.Stated = t.quantity("resolution", quantity.Mass(), strict.Limits{Max: coarsest, ExclusiveMin: true, Unit: "g"})
	drift, _, said := t.quantityOrWord([]string{"fitted"}, "drift", quantity.MassRate(), strict.Limits{Max: fastest, Unit: "g/h"})
	if w.Scale.Drift = drift; said != "" {
		w.Scale.Drift = math.Inf(1)
	}
	const usual = 1e-5
	if r.planned && !given {
		w.Scale.Resolution = usual
		r.assume(t.name("resolution") + ": " + quantity.Mass().Format(usual, "g", 6))
	}
	if !slices.ContainsFunc(w.Runs, func(run Run) bool { return len(run.Points) > 0 }) {
		return // a fault already, or a plan
	}
	step := smallestStep(w.Runs)
	switch {
	case given && w.Scale.Stated && step > 0 && step < w.Scale.Resolution*0.99:
		w.Noted = append(w.Noted, t.name("resolution")+": the masses show steps of "+quantity.Mass().Format(step, "g", 6)+", finer than that")
	case given:
	case step == 0:
		t.fault("resolution", "all masses are the same", "the resolution of the scale, and masses that change")
	default:
		w.Scale.Resolution = step
		r.assume(t.name("resolution") + ": " + quantity.Mass().Format(step, "g", 6) + ", the smallest step seen in the masses")
	}
}

// smallestStep between two masses of all runs, but for the rounding of their conversion to SI [kg]; zero where all are the same.
func smallestStep(runs []Run) (smallest float64) {
	var all []float64
	for _, run := range runs {
		for _, p := range run.Points {
			all = append(all, p.Mass)
		}
	}
	slices.Sort(all)
	for i := 1; i < len(all); i++ {
		const rounding = 1e-9 // of the mass: no scale shows that
		if step := all[i] - all[i-1]; step > rounding*all[i] && (smallest == 0 || step < smallest) {
			smallest = step
		}
	}
	return rounded(smallest)
}

// rounded takes off what a difference of two masses owes to their conversion to SI.
func rounded(difference float64) float64 {
	const nano = 1e12 // steps in a kilogram
	return math.Round(difference*nano) / nano
}
