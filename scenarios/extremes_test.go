package scenarios_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/samples"
	"strandry/materials/humidair"
	"strandry/scenarios"
)

// extreme is a scenario at the ends of what a file may state; every field is a value of
// the file.
type extreme struct{ d, diameter, speed, length, temperature, humidity string }

func (e extreme) text() string {
	return fmt.Sprintf(`
[strand]
material = "pa6"
diameter = %q
room = { temperature = "23 °C", humidity = %q }
[strand.properties]
melting = "450 °C"          # so that no air melts it
diffusivity = { value = %q }
[nozzle]
temperature = "350 °C"
[feed]
speed = %q
[[zone]]
name = "first"
length = %q
temperature = %q
air = { vapour_pressure = "1 Pa" }
[[zone]]
name = "second"
length = %q
temperature = "25 °C"
air = { humidity = %q }
`, e.diameter, e.humidity, e.d, e.speed, e.length, e.temperature, e.length, e.humidity)
}

// At every corner, or by default at every eleventh, of what a file may state there is a finite answer between the start
// and what the air allows.
func TestExtremes(t *testing.T) {
	if testing.Short() {
		t.Skip("no two goroutines meet here")
	}
	w := diffusion.NewMarch()
	var corners []int
	for corner := range 1 << 6 {
		corners = append(corners, corner)
	}
	for _, corner := range samples.Each(11, corners) {
		pick := func(bit int, low, high string) string {
			if corner>>bit&1 == 0 {
				return low
			}
			return high
		}
		e := extreme{
			pick(0, "1e-16 m2/s", "1e-8 m2/s"), pick(1, "0.1 mm", "5 mm"), pick(2, "0.001 mm/s", "50 mm/s"),
			pick(3, "1 mm", "10 km"), pick(4, "-40 °C", "300 °C"), pick(5, "0 %", "100 %"),
		}
		s, err := scenarios.Read("extreme.toml", []byte(e.text()))
		require.NoError(t, err, "%+v", e)
		a, err := w.Assess(&s.Design, s.Settings)
		require.NoError(t, err, "%+v", e)
		low, high := a.Start.Mean, a.Start.Mean
		enters := a.Start.Temperature
		for _, z := range a.Zones { // what its air allows at every temperature it has there
			for _, temperature := range []float64{enters, z.Exit.Temperature} {
				allowed := s.Model.Material.Sorption.Content(z.VapourPressure/humidair.SaturationPressure(temperature), temperature)
				low, high = min(low, allowed), max(high, allowed)
			}
			enters = z.Exit.Temperature
		}
		slack := 1e-3*(high-low) + a.NumericalError
		require.False(t, math.IsNaN(a.Nozzle.Mean+a.NumericalError+a.Low+a.High))
		require.GreaterOrEqual(t, a.Nozzle.Mean, low-slack, "%+v", e)
		require.LessOrEqual(t, a.Nozzle.Mean, high+slack, "%+v", e)
		require.InDelta(t, 0, a.Balance, 1e-9, "%+v %g %g", e, a.Start.Mean, a.Nozzle.Mean)
	}
}

// Beyond the corners a file is refused with the limit.
func TestBeyondTheExtremes(t *testing.T) {
	usual := extreme{"1e-12 m2/s", "1.75 mm", "2 mm/s", "1 m", "80 °C", "50 %"}
	_, err := scenarios.Read("usual.toml", []byte(usual.text()))
	require.NoError(t, err)
	for given, limit := range map[extreme]string{
		{"1e-20 m2/s", "1.75 mm", "2 mm/s", "1 m", "80 °C", "50 %"}:   "1e-18 m2/s",
		{"1e-12 m2/s", "0.01 mm", "2 mm/s", "1 m", "80 °C", "50 %"}:   "0.1 mm",
		{"1e-12 m2/s", "1.75 mm", "0 mm/s", "1 m", "80 °C", "50 %"}:   "0.001 mm/s",
		{"1e-12 m2/s", "1.75 mm", "60 mm/s", "1 m", "80 °C", "50 %"}:  "50 mm/s",
		{"1e-12 m2/s", "1.75 mm", "2 mm/s", "20 km", "80 °C", "50 %"}: "10000 m",
		{"1e-12 m2/s", "1.75 mm", "2 mm/s", "1 m", "320 °C", "50 %"}:  "300 °C",
		{"1e-12 m2/s", "1.75 mm", "2 mm/s", "1 m", "80 °C", "101 %"}:  "100 %",
	} {
		_, err := scenarios.Read("beyond.toml", []byte(given.text()))
		require.Error(t, err, "%+v", given)
		require.True(t, strings.Contains(err.Error(), limit), "%v", err)
	}
}
