package needed

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/materials/humidair"
	"strandry/scenarios"
	"strandry/scenarios/studies/size"
)

// plain is a strand in one zone with air without limit.
const plain = `title = "plain"
[strand]
material = "pc"
moisture = "0.2 %"
[feed]
speed = "1 mm/s"
[[zone]]
name = "oven"
length = "3 m"
temperature = "110 °C"
air = { dew_point = "-20 °C" }
`

// tailed has a guide behind the zone, in which the strand takes up water again.
const tailed = plain + `
[[zone]]
name = "guide"
length = "0.1 m"
`

func read(t *testing.T, text string) *scenarios.Scenario {
	t.Helper()
	s, err := scenarios.Read("plain.toml", []byte(text))
	require.NoError(t, err)
	return s
}

// A run at the length found lands on the limit; a run at nine tenths of it does not.
func TestLengthMeetsTheLimit(t *testing.T) {
	for name, text := range map[string]string{"plain": plain, "tailed": tailed} {
		s := read(t, text)
		r := Request{Temperatures: []float64{363.15, 383.15}, Speeds: []float64{0.0005, 0.002}, Settings: diffusion.CoarseSettings()}
		table, err := Find(context.Background(), s, r)
		require.NoError(t, err)
		require.Equal(t, "oven", table.Zone)
		for k, speed := range r.Speeds {
			for i, temperature := range r.Temperatures {
				length := table.Lengths[k][i]
				require.Greater(t, length, size.Shortest, name)
				ratio := func(share float64) float64 {
					m := s.Model
					m.Speed = speed
					m.Path = append([]diffusion.Zone(nil), m.Path...)
					m.Path[0].Air.Temperature, m.Path[0].Length = temperature, share*length
					var result diffusion.Result
					require.NoError(t, diffusion.NewMarch().Run(&m, r.Settings, &result))
					return result.Nozzle.Mean / s.Limit
				}
				// The search stops at two millionths; a coarse march is smooth to 0.1 %.
				require.InDelta(t, 1, ratio(1), 1e-3, "%s at %g m/s, %g K", name, speed, temperature)
				require.Greater(t, ratio(0.9), 1.01, "%s at %g m/s, %g K", name, speed, temperature)
			}
		}
	}
}

// In one zone with air without limit the strand needs a time, so the length grows in proportion to
// the speed; and a hotter zone needs less of it.
func TestLengthFollowsSpeed(t *testing.T) {
	s := read(t, plain)
	r := Request{Temperatures: []float64{353.15, 373.15, 388.15}, Speeds: []float64{0.001, 0.004}, Settings: diffusion.CoarseSettings()}
	table, err := Find(context.Background(), s, r)
	require.NoError(t, err)
	for i := range r.Temperatures {
		require.InEpsilon(t, 4, table.Lengths[1][i]/table.Lengths[0][i], 1e-3)
		if i > 0 {
			require.Less(t, table.Lengths[0][i], table.Lengths[0][i-1])
		}
	}
}

// Beside each length stand those that are dry one time and nine times in ten: the search for them by full odds finds the same.
func TestLengthsNineTimesInTen(t *testing.T) {
	s := read(t, tailed)
	r := Request{Speeds: []float64{s.Model.Speed / 2, s.Model.Speed}, Settings: diffusion.CoarseSettings()}
	for c := 80.; c <= 115; c += 5 {
		r.Temperatures = append(r.Temperatures, c+273.15)
	}
	table, err := Find(context.Background(), s, r)
	require.NoError(t, err)
	require.Equal(t, 1, table.Own)
	w := diffusion.NewMarch()
	for i, temperature := range r.Temperatures {
		require.Less(t, table.OneInTen[i], table.Lengths[1][i])
		require.Greater(t, table.OneInTen[i], 0.1*table.Lengths[1][i])
		require.Zero(t, table.Residual[i])
		if i%3 != 1 { // between knots too
			continue
		}
		m := s.Design
		m.Path = append([]diffusion.Zone(nil), m.Path...)
		m.Path[0].Air.Temperature = temperature
		shortest, err := size.ShortestOf(w, &m, 0, r.Settings)
		require.NoError(t, err)
		nine, err := size.ReliableOf(w, &m, 0, shortest, nil, 0, r.Settings)
		require.NoError(t, err)
		require.InEpsilon(t, nine.Value, table.NineInTen[i], 0.06, "%g K", temperature) // either search is good to some per cent
	}
}

// Room air at 45 °C holds too much water for polylactide whatever the length: the demonstration's own point. What the likeliest length leaves is what the
// isotherm says of that air.
func TestNoLengthIsEnough(t *testing.T) {
	s, err := scenarios.Demo("lamp-shade")
	require.NoError(t, err)
	table, err := Find(context.Background(), s, Request{Temperatures: []float64{318.15}, Speeds: []float64{s.Model.Speed}, Settings: diffusion.CoarseSettings()})
	require.NoError(t, err)
	require.Zero(t, table.Lengths[0][0])
	air := s.Model.Path[0].Air
	floor := s.Model.Material.Sorption.Content(air.VapourPressure/humidair.SaturationPressure(318.15), 318.15)
	require.InEpsilon(t, floor, table.Residual[0].Mean, 1e-3)
	require.Less(t, table.Residual[0].Low, table.Residual[0].Mean)
	require.Greater(t, table.Residual[0].High, table.Residual[0].Mean)
}

func TestUsual(t *testing.T) {
	s, err := scenarios.Demo("winch-drum")
	require.NoError(t, err)
	r := Usual(s, 0)
	require.Equal(t, 0, r.Zone)
	require.Contains(t, r.Temperatures, s.Model.Material.DryingTemperature.Value)
	require.Contains(t, r.Speeds, s.Model.Speed)
	// Nylon, usually dried at 80 °C at most: from 30 to 100 °C, but no colder than the room.
	ends := func() []float64 {
		all := Usual(s, 0).Temperatures
		return []float64{all[0] - 273.15, all[len(all)-1] - 273.15}
	}
	require.InDeltaSlice(t, []float64{30, 100}, ends(), 1e-9)
	s.Room.Temperature = 273.15 + 38
	require.InDeltaSlice(t, []float64{40, 100}, ends(), 1e-9)
}

func TestRefusals(t *testing.T) {
	s := read(t, plain)
	ctx := context.Background()
	_, err := Find(ctx, s, Request{Zone: 3, Temperatures: []float64{350}, Speeds: []float64{0.001}})
	require.ErrorContains(t, err, "a zone of the path")
	// Below its dew point the air cannot be.
	_, err = Find(ctx, s, Request{Temperatures: []float64{243.15}, Speeds: []float64{0.001}, Settings: diffusion.CoarseSettings()})
	require.ErrorContains(t, err, "saturation")
	stopped, stop := context.WithCancel(ctx)
	stop()
	_, err = Find(stopped, s, Request{Temperatures: []float64{350}, Speeds: []float64{0.001}, Settings: diffusion.CoarseSettings()})
	require.ErrorIs(t, err, context.Canceled)
}

// Where a zone is moister than the strand that it takes over, the shortest is enough: not the length
// at which the strand has become too wet again.
func TestShorterIsDrier(t *testing.T) {
	s := read(t, strings.NewReplacer("3 m", "10 m", "110 °C", "100 °C").Replace(plain)+`
[[zone]]
name = "steam"
length = "3 m"
temperature = "110 °C"
air = { humidity = "30 %" }
`)
	r := Request{Zone: 1, Temperatures: []float64{383.15}, Speeds: []float64{0.001}, Settings: diffusion.CoarseSettings()}
	table, err := Find(context.Background(), s, r)
	require.NoError(t, err)
	require.Equal(t, size.Shortest, table.Lengths[0][0])
	found, err := size.LengthOf(diffusion.NewMarch(), &s.Design, 1, r.Settings)
	require.NoError(t, err)
	require.Equal(t, size.Met, found.Outcome)
	require.Equal(t, size.Shortest, found.From)
	require.Greater(t, found.Value, 10*size.Shortest)
}

// A place where the march has no answer is counted, and told with its reason; the others have their lengths.
func TestPlacesWithoutAnAnswer(t *testing.T) {
	s := read(t, strings.NewReplacer(`"pc"`, `"pa6"`, `"0.2 %"`, `"8 %"`, "3 m", "60 m", `"-20 °C"`, `"-40 °C", flow = "0.07 L/min", direction = "against"`).Replace(plain))
	r := Request{Temperatures: []float64{303.15, 353.15}, Speeds: []float64{0.00025, 0.001}, Settings: diffusion.CoarseSettings()}
	table, err := Find(context.Background(), s, r)
	require.NoError(t, err)
	require.Equal(t, 1, table.Unanswered)
	require.Zero(t, table.Lengths[1][0])
	require.Positive(t, table.Lengths[0][1])
	require.Contains(t, table.Reason, "1 mm/s at 30 °C")
	_, err = Find(context.Background(), s, Request{Temperatures: r.Temperatures[:1], Speeds: r.Speeds[1:], Settings: r.Settings})
	require.ErrorContains(t, err, "so little air")
}

// A strand of PETG in air of 200 °C softens on every length that would dry it; in air in which it holds there is one.
func TestNoLengthWhereTheStrandSoftens(t *testing.T) {
	s := read(t, strings.Replace(plain, `"pc"`, `"petg"`, 1))
	name := s.Model.Path[0].Name
	require.Equal(t, "petg", s.Model.Material.ID)
	table, err := Find(context.Background(), s, Request{Temperatures: []float64{338.15, 473.15}, Speeds: []float64{0.0005}, Settings: diffusion.CoarseSettings()})
	require.NoError(t, err)
	require.Equal(t, name, table.Zone)
	require.Positive(t, table.Lengths[0][0])
	require.Zero(t, table.Lengths[0][1])
	require.Zero(t, table.Unanswered)
}
