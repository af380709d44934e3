package scenarios

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"

	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
	"strandry/scenarios/masses"
)

// Planned is what somebody wants to know by weighing, and what there is to weigh with.
type Planned struct {
	Factor  float64 // by which the diffusivity is to be known either way, nine times in ten, above 1 [-]
	Strand  float64 // mass of what is weighed, dry, the same in each run [kg]; zero where it is to be found
	Longest float64 // that a run may take [s]
	Count   int     // weighings of a run
}

// OpenPlan reads a file of weighings before anything is weighed: its runs need no tables, and [plan] says what is wanted. The error is [strict.Faults].
func OpenPlan(path string) (*Weighings, error) {
	text, err := Text(path)
	if err != nil {
		return nil, strict.Faults{{File: path, Problem: err.Error(), Nearest: neighbour(path, err)}}
	}
	return ReadPlan(path, text, func(name string) ([]byte, error) { return whole(beside(path, name), masses.MaxSize) })
}

// ReadPlan makes a plan of a text. It opens no file by itself: open gives the bytes of material files by the names that the text has for them; nil where there are
// none. The error is [strict.Faults].
func ReadPlan(file string, text []byte, open func(name string) ([]byte, error)) (*Weighings, error) {
	return readWeighings(file, text, open, true)
}

// asked reads [plan]. Weighings that were made have no use for it, but it is to be sound there too: the file of a plan becomes theirs.
func (r *reading) asked(t section) Planned {
	const factor, longest, count = 1.3, 48 * 3600, 12
	p := Planned{Longest: longest}
	p.Factor = t.number("factor", strict.Limits{Min: 1.02, Max: 10}, factor)
	p.Strand, _ = t.quantity("strand", quantity.Mass(), strict.Limits{Min: 1e-4, Max: 10, Unit: "g"})
	if given, ok := t.quantity("longest", quantity.Duration(), strict.Limits{Min: 600, Max: 60 * 86400, Unit: "h"}); ok {
		p.Longest = given
	} else if r.planned && !t.has("longest") {
		r.assume(t.name("longest") + ": " + quantity.Duration().Format(longest, "h", 6))
	}
	p.Count = int(math.Round(t.number("weighings", strict.Limits{Min: 5, Max: 100}, count)))
	return p
}

// plan gives the runs what a plan needs to know of them.
func (r *reading) plan(w *Weighings, asked Planned) {
	w.Plan = asked
	for i := range w.Runs {
		run := &w.Runs[i]
		if run.File == "" {
			w.unnamed = append(w.unnamed, strict.Fault{File: r.document.File, Key: fmt.Sprintf("run[%d].file", i+1), Problem: "missing",
				Allowed: `the table that is to be filled in, such as "dry-80.csv"`})
			run.File = strings.TrimSuffix(filepath.Base(w.File), ".toml") + "-" + quantity.Temperature().Format(run.Zone.Air.Temperature, "°C", 4) + ".csv"
			run.File = strings.NewReplacer(" ", "", "°", "").Replace(run.File)
		}
		run.Zone.Name = runName(run.File, w.Runs[:i])
	}
	w.startInRoom()
}

// startInRoom tells how wet the strands begin: as stated, or in equilibrium with the room.
func (w *Weighings) startInRoom() {
	for i := range w.Runs {
		run := &w.Runs[i]
		if run.StartKnown {
			continue
		}
		run.Start = w.Model.Material.Sorption.Content(w.Room.Humidity, w.Room.Temperature)
	}
}
