package table

import (
	"strconv"
	"strings"
)

// Coil is what to weigh in each run, with its length.
func (f *FitPlan) Coil() string { return f.coil(f.Plan.Chosen.Strand) }

// Expected is how well the diffusivity would then be known.
func (f *FitPlan) Expected() string { return "known " + either(f.Plan.Chosen.Factor) }

// Due are the times at which a run is to be weighed, counted from 0 as the runs are, since the strand came into the oven: h:min.
func (f *FitPlan) Due(run int) []string {
	var out []string
	for _, t := range f.Plan.Runs[run].Times {
		out = append(out, clock(t))
	}
	return out
}

// Left says how much of the water should be left to move at the end of a run.
func (f *FitPlan) Left(run int) string { return share(max(f.Plan.Runs[run].Left, 0)) + " %" }

// Empty is the table of a run with the due times and no masses yet, as CSV that is read when it is filled in.
func (f *FitPlan) Empty(run int) []byte {
	const hour, decimals = 3600, 4
	var b strings.Builder
	b.WriteString("time [h],mass [g]\n")
	for _, t := range f.Plan.Runs[run].Times {
		text := strconv.FormatFloat(t/hour, 'f', decimals, 64)
		b.WriteString(strings.TrimSuffix(strings.TrimRight(text, "0"), ".") + ",\n")
	}
	return []byte(b.String())
}
