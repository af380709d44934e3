package figure

import (
	"encoding/csv"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/plots/canvas"
	"strandry/scenarios/validation/measured"
	"strandry/scenarios/validation/prove"
)

// The figures of the solver and of the evidence for the documents, testdata/figures/convergence.png, error-time.png and
// evidence.png: go test ./plots/figure -run SolverFigures -update writes them anew.
func TestSolverFigures(t *testing.T) {
	t.Parallel()
	orders, err := prove.Convergence()
	require.NoError(t, err)
	evidence, err := measured.Compare()
	require.NoError(t, err)
	for name, f := range map[string]Figure{
		"evidence":    Evidence{Frame{Notes: []string{"bars: what is printed and its range, upright; the predicted interval, level; on the dashed line both agree"}}, evidence.Comparisons},
		"convergence": Convergence{Frame{Notes: []string{"stretch 2; in space with a tolerance of 1e-10, in time on 250 nodes"}}, orders},
		"error-time": ErrorTime{Frame{Notes: []string{"standard transit; each dot a setting, the line the best of each code; " +
			"dots far below their neighbours are errors that cancel; two cores, 2026-11-25"}}, benchmarked(t), 1e-3},
	} {
		t.Run(name, func(t *testing.T) {
			require.NoError(t, f.check())
			alike(t, f, 96, filepath.Join("..", "..", "testdata", "figures", name+".png"))
		})
	}
}

// benchmarked reads testdata/bench/error-time.csv, which tells its origin.
func benchmarked(t *testing.T) []Timed {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "bench", "error-time.csv"))
	require.NoError(t, err)
	defer file.Close()
	rows := csv.NewReader(file)
	rows.Comment = '#'
	_, err = rows.Read() // the heads
	require.NoError(t, err)
	var out []Timed
	for {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			require.Greater(t, len(out), 100)
			return out
		}
		require.NoError(t, err)
		number := func(i int) float64 {
			x, err := strconv.ParseFloat(row[i], 64)
			require.NoError(t, err)
			return x
		}
		name := map[string]string{"strandry": "strandry", "cvode": "CVODE", "scipy": "scipy"}[row[0]]
		out = append(out, Timed{Code: name, Beta: number(1), Time: 1e-6 * number(4), Error: number(5)})
	}
}

func TestEnvelopeOnlyFalls(t *testing.T) {
	x, y := envelope([]float64{1, 2, 3, 4, 5}, []float64{5, 7, 3, 3, 1})
	require.Equal(t, []float64{1, 3, 5}, x)
	require.Equal(t, []float64{5, 3, 1}, y)
}

func TestSolverFiguresRefuse(t *testing.T) {
	order := func() prove.Order {
		return prove.Order{Name: "a", InSpace: true, Size: []float64{1, 0.5}, Count: []int{2, 4}, Error: []float64{1e-3, 1e-4}, Measured: 3.3, Stated: 4}
	}
	inTime := order()
	inTime.InSpace = false
	both := func(change func(*prove.Order)) Convergence {
		o := order()
		change(&o)
		return Convergence{Orders: []prove.Order{o, inTime}}
	}
	require.NoError(t, checked(both(func(*prove.Order) {})))
	good := Timed{"a", 0, 1e-3, 1e-3}
	require.NoError(t, ErrorTime{Points: []Timed{good}, Error: 1e-3}.check())
	for name, f := range map[string]Figure{
		"no figures":    Evidence{},
		"below zero":    Evidence{Comparisons: []measured.Comparison{{Figure: measured.Figure{Low: -1, High: 1}, Predicted: measured.Prediction{Value: 1, Low: 1, High: 1}}}},
		"no orders":     Convergence{},
		"one side":      Convergence{Orders: []prove.Order{inTime}},
		"no error":      both(func(o *prove.Order) { o.Error[1] = 0 }),
		"NaN":           both(func(o *prove.Order) { o.Error[1] = math.NaN() }),
		"NaN order":     both(func(o *prove.Order) { o.Measured = math.NaN() }),
		"ragged":        both(func(o *prove.Order) { o.Count = o.Count[:1] }),
		"falling":       both(func(o *prove.Order) { o.Count[1] = 1 }),
		"no points":     ErrorTime{Error: 1e-3},
		"nothing asked": ErrorTime{Points: []Timed{good}},
		"no code":       ErrorTime{Points: []Timed{{"", 0, 1, 1}}, Error: 1e-3},
		"no time":       ErrorTime{Points: []Timed{{"a", 0, 0, 1}}, Error: 1e-3},
		"NaN error":     ErrorTime{Points: []Timed{{"a", 0, 1, math.NaN()}}, Error: 1e-3},
		"NaN beta":      ErrorTime{Points: []Timed{{"a", math.NaN(), 1, 1}}, Error: 1e-3},
	} {
		out, err := Encode(f, canvas.SVG)
		require.Error(t, err, name)
		require.Empty(t, out, name)
	}
}
