package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
)

// TestAttackRows sweeps random designs over random axes: the folder has the same bytes on any number of cores, and each row is what
// run says of that design, to the bit.
func TestAttackRows(t *testing.T) {
	t.Parallel()
	rows := 0
	least := samples.Of(3, 12, 380)
	for i := 0; rows < least; i++ {
		require.Less(t, i, 400)
		dice := attackDice(t, 3, i)
		d := drafted(dice)
		axes := randomAxes(&drafter{Rand: dice}, d)
		t.Run(strconv.Itoa(i), func(t *testing.T) {
			defer tellDraft(t, d)
			t.Log(axes)
			rows += attackRows(t, dice, d, axes)
		})
		if t.Failed() {
			return
		}
	}
}

// randomAxes are one or two axes for a sweep, each as --vary has it.
func randomAxes(r *drafter, d draft) []string {
	zone := d.parts[len(d.parts)-1].path
	all := []string{
		fmt.Sprintf("%s.length=%.3g m..%.3g m:%d:log", zone, r.log(5e-3, 0.5), r.log(1, 50), 2+r.IntN(3)),
		fmt.Sprintf("%s.length=%.3g m, %.3g m, %.3g m", zone, r.log(0.01, 5), r.log(0.01, 5), r.log(0.01, 5)),
		fmt.Sprintf("%s.temperature=%.3g °C..%.3g °C:3", zone, r.linear(20, 50), r.linear(60, 110)),
		fmt.Sprintf("feed.speed=%.3g mm/s, %.3g mm/s", r.log(0.1, 10), r.log(0.1, 10)),
		"room.humidity=0 %..60 %:3",
		"room.temperature=15 °C, 35 °C",
		fmt.Sprintf("strand.diameter=%.3g mm, 2.85 mm", r.log(0.3, 4)),
		fmt.Sprintf("strand.moisture=0 %%, %.3g %%", r.linear(0, 5)),
		"strand.material=pc, pla, pa6",
		fmt.Sprintf("%s.h=%.3g W/m2/K, 30 W/m2/K", zone, r.log(0.2, 900)),
		fmt.Sprintf("%s.emissivity=0, 0.9", zone),
		"strand.properties.diffusivity.value=1e-14 m2/s..1e-10 m2/s:3:log",
		"strand.limit=0.001 %..1 %:3:log",
	}
	first, second := all[r.IntN(len(all))], all[r.IntN(len(all))]
	key := func(axis string) string { return axis[:strings.LastIndex(axis, "=")] }
	if key(first) == key(second) || r.chance(0.3) {
		return []string{first}
	}
	return []string{first, second}
}

// attackRows tells how many rows were compared.
func attackRows(t *testing.T, dice *rand.Rand, d draft, axes []string) int {
	file := d.file(t)
	args := []string{"sweep", file}
	for _, axis := range axes {
		args = append(args, "--vary", axis)
	}
	var first map[string]string
	var folder string
	for _, cores := range []int{1, 2 + dice.IntN(6)} {
		folder = filepath.Join(t.TempDir(), "out")
		s := fired(t, 2, append(args, "-o", folder, "--cores", strconv.Itoa(cores))...)
		if s.status != answered {
			require.Regexp(t, `draft\.toml|--vary`, s.errOut)
			require.NoDirExists(t, folder)
			return 0
		}
		if first == nil {
			first = tree(t, folder)
		}
		sameTree(t, first, tree(t, folder), fmt.Sprintf("--cores %d", cores))
	}
	var data struct{ Rows []sweptRow }
	finiteText(t, content(t, folder, tableFile))
	require.NoError(t, json.Unmarshal([]byte(content(t, folder, dataFile)), &data))
	table := csvRows(t, filepath.Join(folder, tableFile))
	require.Len(t, data.Rows, len(table))
	for i, row := range data.Rows {
		row.sameAsTable(t, table[i])
		row.sameAsRun(t, d, table[i], axes)
	}
	return len(table)
}

// sweptRow is a row of sweep.json.
type sweptRow struct {
	Mean, Centre, Skin, Low, High, Probability, Limit, Removed *float64
	Verdict, Survives                                          string
	Resolution, Tolerance                                      float64
	Failed                                                     string `json:"no_answer_because"`
}

func (r sweptRow) numbers() map[string]*float64 {
	return map[string]*float64{"mean": r.Mean, "centre": r.Centre, "skin": r.Skin, "low": r.Low, "high": r.High, "probability": r.Probability, "limit": r.Limit, "removed": r.Removed}
}

// sameAsTable requires the CSV to say the same in per cent.
func (r sweptRow) sameAsTable(t *testing.T, row map[string]string) {
	t.Helper()
	require.Equal(t, []string{r.Verdict, r.Survives, r.Failed}, []string{row["verdict"], row["survives"], row["no answer because"]})
	for name, x := range r.numbers() {
		cell, times := row[name+" [%]"], 100.0
		if name == "probability" {
			cell, times = row[name], 1
		}
		if x == nil {
			require.Empty(t, cell, name)
			continue
		}
		printed, err := strconv.ParseFloat(cell, 64)
		require.NoError(t, err, name)
		require.Equal(t, times**x, printed, name)
	}
}

// sameAsRun requires run to say the same of the design with the values and the settings of the row.
func (r sweptRow) sameAsRun(t *testing.T, d draft, row map[string]string, axes []string) {
	t.Helper()
	where := fmt.Sprint(row)
	for _, axis := range axes {
		d = d.with(axisValue(t, axis, row))
	}
	if r.Resolution > 0 { // else there is no model
		d = d.with("numerics.resolution", tomlNumber(r.Resolution)).with("numerics.tolerance", tomlNumber(r.Tolerance))
	}
	s := fired(t, 2, "run", "--json", d.file(t))
	if r.Failed != "" {
		// Where many designs are compared, one that rests on water that condenses has no answer.
		require.True(t, s.status == failed || strings.Contains(r.Failed, "condense"), where)
		return
	}
	require.Equal(t, answered, s.status, where+s.errOut)
	a := answerOf(t, s.out)
	m := a.Moisture
	require.Equal(t, a.Survives, r.Survives, where)
	if a.Settings.Resolution != r.Resolution || a.Settings.Tolerance != r.Tolerance { // refined for the verdict
		require.InDelta(t, m.Mean, *r.Mean, 50*m.NumericalError+0.1*m.Mean, where)
		return
	}
	for name, want := range map[string]float64{"mean": m.Mean, "centre": m.Centre, "skin": m.Skin, "low": m.Low, "high": m.High, "probability": m.Probability, "limit": m.Limit, "removed": m.Removed} {
		require.Equal(t, want, *r.numbers()[name], "%s of %s", name, where)
	}
	if a.Verdict != "unsure" { // run adds the numerical error
		require.Equal(t, a.Verdict, r.Verdict, where)
	}
}

// axisValue is the key of an axis and its value in a row, as a scenario has them.
func axisValue(t *testing.T, axis string, row map[string]string) (key, value string) {
	t.Helper()
	key = axis[:strings.LastIndex(axis, "=")]
	for head, cell := range row {
		name, unit, known := strings.Cut(head, " [")
		switch {
		case name != key && head != key:
		case known:
			return key, strconv.Quote(cell + " " + strings.TrimSuffix(unit, "]"))
		case key == "strand.material":
			return key, strconv.Quote(cell)
		default:
			return key, cell
		}
	}
	t.Fatalf("no column of %s in %v", key, row)
	return "", ""
}
