package table

import (
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/scenarios"
	"strandry/scenarios/masses"
	"strandry/scenarios/studies/fit"
)

// What a plan gives for a sheet: the coil, the due times of each run, and tables that are read once they hold masses.
func TestSheetOfPlan(t *testing.T) {
	w, err := scenarios.ReadPlan("plan.toml", []byte("strand.material = \"pa6\"\nrun = [{ file = \"a.csv\" }, { file = \"b.csv\" }]\n"), nil)
	require.NoError(t, err)
	f := &FitPlan{Plan: &fit.Plan{Weighings: w, Chosen: fit.Option{Strand: 0.02, Factor: 1.4}, Runs: []fit.PlannedRun{
		{Times: []float64{0, 300, 36000, 97200}, Left: 0.062}, {Times: []float64{0, 900}, Left: -1e-9},
	}}}
	require.Regexp(t, `^20 g of strand \(7\.\d+ m\)$`, f.Coil()) // 20 g over 1.13 g/cm³ times 2.405 mm²
	require.Equal(t, "known within a factor of 1.4 either way", f.Expected())
	require.Equal(t, []string{"0:00", "0:05", "10:00", "27:00"}, f.Due(0))
	require.Equal(t, []string{"0:00", "0:15"}, f.Due(1))
	require.Equal(t, "6 %", f.Left(0))
	require.Equal(t, "0 %", f.Left(1))
	require.Equal(t, "time [h],mass [g]\n0,\n0.0833,\n10,\n27,\n", string(f.Empty(0)))
	require.Equal(t, "time [h],mass [g]\n0,\n0.25,\n", string(f.Empty(1)))
	_, err = masses.Read("a.csv", f.Empty(0))
	require.EqualError(t, err, `a.csv:2: mass [g] = "": not weighed yet, nor are 3 further lines; allowed: the mass, or no such line`)
}
