package table

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/scenarios"
	"strandry/scenarios/studies/sweep"
)

// made is a sweep whose figures are made up, one row without an answer.
func made(t *testing.T, quick bool, axes ...string) *Sweep {
	t.Helper()
	s, err := scenarios.Demo("winch-drum")
	require.NoError(t, err)
	s, err = s.Varied(axes...)
	require.NoError(t, err)
	o, err := (&sweep.Sweep{Scenario: s, Quick: quick}).Origin("9.9.9")
	require.NoError(t, err)
	g := &sweep.Grid{Axes: s.Vary, Rows: make([]sweep.Row, o.Rows), Quick: quick, NumericalError: 1e-6, RelativeError: 2e-4, Checked: 3}
	for i := range g.Rows {
		mean := 0.004 / math.Exp2(float64(i))
		g.Rows[i] = sweep.Row{
			Mean: mean, Centre: 1.5 * mean, Skin: mean / 2, Low: 0.8 * mean, High: 1.25 * mean, Probability: 0.3, Limit: 0.002, Removed: 1 - mean/0.025,
			Verdict: diffusion.Verdict(i % 3), Settings: diffusion.Settings{Resolution: 3, Tolerance: 0.03},
		}
	}
	g.Rows[1] = sweep.Row{Failed: `the axes, together, make "no" scenario`}
	return &Sweep{Title: "A drum", File: "drum.toml", Version: "9.9.9", Origin: o, Grid: g, Figures: []string{"line.png"}}
}

func TestSweepCSV(t *testing.T) {
	var out strings.Builder
	require.NoError(t, made(t, false, "zone.drum.temperature=60 °C, 350 K, 90 °C", "strand.material=pa6").WriteCSV(&out))
	require.Equal(t, `zone.drum.temperature [°C],strand.material,mean [%],centre [%],skin [%],low [%],high [%],probability,limit [%],removed [%],verdict,survives,resolution,tolerance,heat,no answer because
60,pa6,0.4,0.6,0.2,0.32,0.5,0.3,0.2,84,unsure,holds,3,0.03,by the Biot number,
76.85,pa6,,,,,,,,,,,,,,"the axes, together, make ""no"" scenario"
90,pa6,0.1,0.15,0.05,0.08,0.125,0.3,0.2,96,wet,holds,3,0.03,by the Biot number,
`, out.String())
}

func TestSweepText(t *testing.T) {
	var out strings.Builder
	require.NoError(t, made(t, false, "feed.speed=1 mm/s..3 mm/s:3").WriteText(&out))
	golden(t, "sweep.txt", out.String())
	for line := range strings.Lines(out.String()) {
		require.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), width, line)
	}
	out.Reset()
	require.NoError(t, made(t, true, "feed.speed=1 mm/s..3 mm/s:3", "strand.material=pa6,pa12").WriteText(&out))
	require.Contains(t, out.String(), "Rows: 6; within the limit at the central diffusivity: 4; above it: 1; within")
	require.Contains(t, out.String(), "strand.material: pa6, pa12")
}

func TestSweepJSON(t *testing.T) {
	var out strings.Builder
	s := made(t, false, "feed.speed=1 mm/s..3 mm/s:3")
	require.NoError(t, s.WriteJSON(&out))
	golden(t, "sweep.json", strings.ReplaceAll(out.String(), s.Origin.String(), "ORIGIN"))
	o, err := SweepOrigin(strings.NewReader(out.String()))
	require.NoError(t, err)
	require.Equal(t, s.Origin, o)
	for _, text := range []string{"", "{", "{}", `{"origin":"x"}`} {
		_, err := SweepOrigin(strings.NewReader(text))
		require.Error(t, err, text)
	}
}

// A figure that is not finite is refused before anything is written.
func TestSweepThatIsNotFinite(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1)} {
		s := made(t, false, "feed.speed=1 mm/s..3 mm/s:3")
		s.Grid.Rows[2].Skin = bad
		var out strings.Builder
		require.ErrorContains(t, s.WriteCSV(&out), "the sweep.Rows[3].Skin")
		require.ErrorContains(t, s.WriteJSON(&out), "the sweep.Rows[3].Skin")
		require.ErrorContains(t, s.WriteText(&out), "the sweep.Rows[3].Skin")
		require.Empty(t, out.String())
	}
}
