package scenarios

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"strandry/diffusion"
	"strandry/diffusion/film"
	"strandry/materials/text/inert"
	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
	"strandry/scenarios/masses"
)

// runs reads [[run]].
func (r *reading) runs(root section, w *Weighings) {
	tables := root.subs("run")
	if !root.has("run") || tables != nil && len(tables) == 0 {
		root.fault("run", "no run", "one or more [[run]], each with the file of its masses")
	}
	for i, table := range tables {
		t := section{r: r, table: table, path: fmt.Sprintf("run.%d", i+1)}
		w.Runs = append(w.Runs, r.run(t, w))
	}
}

// run reads the air of a run as that of a zone, and its masses.
func (r *reading) run(t section, w *Weighings) Run {
	var run Run
	z := &run.Zone
	file, named := t.text("file")
	if !named && !t.has("file") && !r.planned {
		t.fault("file", "missing", `the table of the masses, such as "dry-80.csv"`)
	}
	z.Air.Temperature = t.airTemperature(w.Room.Temperature)
	air := t.sub("air")
	r.air(t, air, z, w.Room)
	r.filmAtRest(t, air, z)
	run.Start, run.StartKnown = t.quantity("moisture", quantity.Fraction(), strict.Limits{Max: maxContent, Unit: "%"})
	run.DryMass, run.DryMassKnown = t.quantity("dry_mass", quantity.Mass(), strict.Limits{Max: masses.Heaviest, ExclusiveMin: true, Unit: "g"})
	if named && r.planned {
		run.File = file
	} else if named {
		r.masses(t, file, &run, w)
	}
	return run
}

// filmAtRest reads what sets the exchange of a strand that lies in air without limit.
func (r *reading) filmAtRest(t, air section, z *diffusion.Zone) {
	f := &z.Film
	t.coefficients(f)
	speed, moving, past := air.passing()
	f.AirSpeed, f.Flow = speed, film.Natural
	switch {
	case moving && past == "along":
		f.Flow = film.Along
	case moving:
		f.Flow = film.Across
		if past == "" {
			r.assume(air.name("past") + ": across")
		}
	}
	const allowed = "h and k_m both, or a strand that lies and air across it"
	if known := f.Heat > 0 && f.Mass > 0; known || t.has("h") && t.has("k_m") {
		return
	}
	if f.Flow == film.Along {
		air.fault("past", "the film of air along a strand rests on a length, which is not known here", allowed)
	}
	if f.Vertical {
		t.fault("vertical", "the film on a strand that hangs rests on a length, which is not known here", allowed)
	}
}

// masses reads the table of a run.
func (r *reading) masses(t section, file string, run *Run, w *Weighings) {
	run.File = file
	if r.document.open == nil {
		t.fault("file", "a text without a folder cannot name files", "")
		return
	}
	path := beside(r.document.path, file)
	text, err := r.document.open(file)
	if err != nil {
		t.report("file", strict.Fault{Problem: err.Error(), Nearest: neighbour(path, err)})
		return
	}
	sum := sha256.Sum256(text)
	run.Sum = hex.EncodeToString(sum[:])
	if i := slices.IndexFunc(w.Runs, func(other Run) bool { return other.Sum == run.Sum }); i >= 0 {
		t.fault("file", fmt.Sprintf("the same masses as in run %d, %s", i+1, w.Runs[i].File), "each run once")
		return
	}
	table, err := masses.Read(path, text)
	var inside strict.Faults
	if errors.As(err, &inside) {
		r.faults = append(r.faults, inside...)
		return
	}
	for _, row := range table.Rows {
		run.Points = append(run.Points, Weighing{Time: row.Time, Mass: row.Mass, Line: row.Line})
	}
	run.Zone.Name = runName(file, w.Runs)
	run.Zone.Duration = table.Rows[len(table.Rows)-1].Time
	r.tell(t, table, run, w)
	r.sound(t, run)
}

// runName is what a run is called, as no other is: its table without folder and ending, or else with them.
func runName(file string, others []Run) string {
	name := filepath.Base(filepath.ToSlash(file))
	bare := strings.TrimSuffix(name, filepath.Ext(name))
	for _, name := range [...]string{bare, file} {
		if name != "" && !slices.ContainsFunc(others, func(other Run) bool { return other.Zone.Name == name }) {
			return name
		}
	}
	return fmt.Sprintf("%s (run %d)", file, len(others)+1)
}

// tell notes what the reading of a table decided.
func (r *reading) tell(t section, table *masses.Table, run *Run, w *Weighings) {
	if len(table.Left) > 0 {
		w.Noted = append(w.Noted, t.name("file")+": columns that are not read: "+strings.Join(table.Left, ", "))
	}
	for _, said := range table.Said {
		w.Noted = append(w.Noted, t.name("file")+": "+said)
	}
	if first := run.Points[0].Time; first > 0 {
		r.assume(t.name("file") + ": the strand came into this air at time 0, " + quantity.Duration().Format(first, "min", 4) + " before the first weighing")
	}
	const much = 2 // [kg]
	if run.heaviest().Mass > much {
		w.Noted = append(w.Noted, t.name("file")+": "+quantity.Mass().Format(run.heaviest().Mass, "kg", 3)+" is much for a strand; is the unit the scale's?")
	}
}

func (run *Run) lightest() Weighing {
	return slices.MinFunc(run.Points, func(a, b Weighing) int { return cmp.Compare(a.Mass, b.Mass) })
}

func (run *Run) heaviest() Weighing {
	return slices.MaxFunc(run.Points, func(a, b Weighing) int { return cmp.Compare(a.Mass, b.Mass) })
}

// sound reports masses that no strand of one dry mass can have.
func (r *reading) sound(t section, run *Run) {
	const scatter = 0.01 // of a mass, by which the scale may be off
	show := func(p Weighing) string {
		return quantity.Mass().Format(p.Mass, "g", 6) + " in line " + fmt.Sprint(p.Line) + " of " + inert.Escaped(run.File)
	}
	light, heavy := run.lightest(), run.heaviest()
	most := light.Mass * (1 + maxContent) * (1 + scatter)
	if heavy.Mass > most {
		t.fault("file", "masses from "+show(light)+" to "+show(heavy), "the masses of one strand, which takes up half its dry mass in water at the most")
	}
	if !run.DryMassKnown {
		return
	}
	switch {
	case run.DryMass > light.Mass*(1+scatter):
		t.fault("dry_mass", "the strand weighed less: "+show(light), "up to that mass, and 1 % more for the scale")
	case heavy.Mass > run.DryMass*(1+maxContent)*(1+scatter):
		t.fault("dry_mass", "the strand would have held more than half as much water: it weighed "+show(heavy), "at least two thirds of that mass")
	}
}
