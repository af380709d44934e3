package table

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	housing "strandry/diffusion/machine/heat"
	"strandry/scenarios"
)

// built is the machine of a demonstration.
func built(t *testing.T, name string, set ...scenarios.Setting) *Machine {
	t.Helper()
	s, err := scenarios.Demo(name)
	require.NoError(t, err)
	s, err = s.With(set...)
	require.NoError(t, err)
	march := diffusion.NewMarch()
	var r diffusion.Result
	require.NoError(t, march.Run(&s.Model, s.Settings, &r))
	told, err := machine.Tell(march, &s.Design, &r, &s.Machine)
	require.NoError(t, err)
	return &Machine{Answer: told, Stated: &s.Machine, Strand: s.Design.Material.Name}
}

// Ten lines at most, none wider than the screen, and what they say is of the numbers.
func TestMachineFitsTheScreen(t *testing.T) {
	for _, name := range []string{"winch-drum", "clear-cover", "opened-yesterday"} {
		m := built(t, name)
		lines := m.lines()
		require.LessOrEqual(t, len(lines), machineLines, name)
		for _, line := range lines {
			require.LessOrEqual(t, utf8.RuneCountInString(line), width, line)
		}
	}
}

// Every concern has words of its own, which name what to change.
func TestEveryConcernOfTheMachineHasWords(t *testing.T) {
	m := built(t, "winch-drum")
	seen := map[string]machine.Concern{}
	for c := machine.DoesNotFit; c <= machine.SoftensAtRest; c++ {
		text := m.brief(machine.Warning{Concern: c, Chamber: "drum", Value: 300, Limit: 350})
		require.NotContains(t, text, "look at this")
		before, again := seen[text]
		require.False(t, again, "%d and %d: %s", before, c, text)
		seen[text] = c
	}
}

// The first line tells what cannot be built.
func TestMachineThatDoesNotFit(t *testing.T) {
	m := built(t, "winch-drum", scenarios.Setting{Key: "build.box.width", Value: "120 mm"}, scenarios.Setting{Key: "zone.drum.heater", Value: "5 W"})
	text := strings.Join(m.lines(), "\n")
	require.Contains(t, text, "Fits           NO: drum")
	require.Contains(t, text, "never warm")
	require.Contains(t, text, "  ! drum: ")
}

// The stretch is told by the modulus where the strand is hottest; one that is known cold alone tells none.
func TestMachineTellsTheStretch(t *testing.T) {
	for _, name := range []string{"winch-drum", "clear-cover", "opened-yesterday"} {
		m := built(t, name)
		point := m.Pull.Result.Points[m.Pull.Result.Longest]
		s, err := scenarios.Demo(name)
		require.NoError(t, err)
		e, known := s.Design.Material.Modulus(point.Temperature)
		require.True(t, known)
		require.InEpsilon(t, point.Stress.High/e.Low, point.Stretch.Strain.High, 1e-9, name)
		require.Regexp(t, "; stretch [0-9.]+ % at most", strings.Join(m.lines(), "\n"), name)
	}
	m := built(t, "winch-drum", scenarios.Setting{Key: "strand.material", Value: "pva"})
	require.GreaterOrEqual(t, m.Pull.Result.Longest, 0) // by the spool
	require.Contains(t, strings.Join(m.lines(), "\n"), "; stretch not known")
}

// JSON of the machine is in SI and holds what the lines say.
func TestMachineInJSON(t *testing.T) {
	m := built(t, "winch-drum")
	var b bytes.Buffer
	require.NoError(t, encode(&b, machineOf(m)))
	var out struct {
		Power  float64
		Heater []struct{ Power, Stated, Balance float64 }
		Fit    []struct {
			Fits  bool
			Holds float64
		}
		Desiccant struct {
			Life struct{ Value, Low, High float64 }
		}
		Pull struct {
			AtFeeder struct{ Low, Value, High float64 } `json:"at_feeder"`
		}
		Cost struct {
			Total float64
			Parts []struct{ Cost float64 }
		}
	}
	require.NoError(t, json.Unmarshal(b.Bytes(), &out))
	require.InEpsilon(t, m.Power, out.Power, 1e-12)
	require.InEpsilon(t, 40, out.Heater[0].Stated, 1e-12)
	require.Less(t, out.Heater[0].Balance, 1e-9)
	require.True(t, out.Fit[0].Fits)
	require.InEpsilon(t, 12, out.Fit[0].Holds, 1e-3)
	require.Greater(t, out.Desiccant.Life.High, out.Desiccant.Life.Low)
	require.Greater(t, out.Pull.AtFeeder.High, out.Pull.AtFeeder.Value)
	sum := 0.0
	for _, p := range out.Cost.Parts {
		sum += p.Cost
	}
	require.InEpsilon(t, out.Cost.Total, sum, 1e-12)
	require.Nil(t, machineOf(nil))
}

// All is warm when the slowest chamber is; what is never warm, or not told, has no time.
func TestWarmUpOfAll(t *testing.T) {
	warm := func(seconds float64) machine.Housed {
		return machine.Housed{Heated: true, Warms: true, WarmUp: housing.Time{Reached: true, Seconds: seconds}}
	}
	require.Equal(t, 600.0, warmUpOf([]machine.Housed{warm(300), {}, warm(600), warm(400)}))
	require.Nil(t, warmUpOf([]machine.Housed{warm(300), {Heated: true, Warms: true}}))
	require.Nil(t, warmUpOf([]machine.Housed{warm(300), {Heated: true}}))
	require.Nil(t, warmUpOf([]machine.Housed{{}}))
}

// What cannot be told of a machine stands on the screen, on paper and in JSON.
func TestUntoldMachine(t *testing.T) {
	a := &Answer{Untold: "the oven is too wide"}
	var b strings.Builder
	a.machine(&b)
	require.Equal(t, "\nThe machine    cannot be told: the oven is too wide\n", b.String())
	b.Reset()
	(&Answer{}).machine(&b)
	require.Empty(t, b.String())
}
