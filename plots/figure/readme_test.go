package figure

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/machine"
	"strandry/diffusion/samples"
	"strandry/materials"
	"strandry/scenarios"
	"strandry/scenarios/studies/buildlog"
	"strandry/scenarios/studies/suits"
)

// The figures of the README are those of the demonstrations, and light enough for a page that is read everywhere. They are made anew with
// go test ./plots/figure -run ReadmeFigures -update.
func TestReadmeFigures(t *testing.T) {
	t.Parallel()
	if testing.Short() {
		t.Skip("slow, and its code is run by others")
	}
	demo := func(name string) *scenarios.Scenario {
		s, err := scenarios.Demo(name)
		require.NoError(t, err)
		return s
	}
	const version = "" // so that a new one moves no picture
	for name, draw := range map[string]func() Figure{
		"path": func() Figure {
			s, w := demo("winch-drum"), diffusion.NewMarch()
			trace, err := w.Trace(&s.Model, s.Settings)
			require.NoError(t, err)
			odds, err := w.Odds(&s.Design, s.Settings)
			require.NoError(t, err)
			f, err := PathOf(w, &s.Design, trace, &odds, s.Settings, FrameOf(s, version))
			require.NoError(t, err)
			return f
		},
		"section": func() Figure {
			s := demo("winch-drum")
			trace, err := diffusion.NewMarch().Trace(&s.Model, s.Settings)
			require.NoError(t, err)
			f, covered := SectionOf(&s.Design, trace, FrameOf(s, version))
			require.True(t, covered)
			return f
		},
		"machine": func() Figure {
			s, march := demo("winch-drum"), diffusion.NewMarch()
			trace, err := march.Trace(&s.Model, s.Settings)
			require.NoError(t, err)
			told, err := machine.Tell(march, &s.Design, &trace.Result, &s.Machine)
			require.NoError(t, err)
			f, some, err := MachineOf(s, told, FrameOf(s, version))
			require.NoError(t, err)
			require.True(t, some)
			return f
		},
		"map": func() Figure {
			s := demo("clear-cover")
			grid, err := buildlog.Chart(context.Background(), s, 0, 1.03) // that it takes at the medians
			require.NoError(t, err)
			sheets, undrawn := OfSweep(grid, s, FrameOf(s, version))
			require.Empty(t, undrawn)
			return sheets[0].Figure
		},
		"materials": func() Figure {
			s := demo("clear-cover")
			var some []materials.Polymer // all would take long
			for _, name := range []string{"pla", "petg", "abs", "pc", "pa6", "pa12", "pp"} {
				p, err := materials.Lookup(name)
				require.NoError(t, err)
				some = append(some, p)
			}
			answer, err := suits.Find(context.Background(), s, some, buildlog.RoomTime)
			require.NoError(t, err)
			return SuitsOf(answer, answer.Soaked, FrameOf(s, version))
		},
	} {
		if (name == "materials" || name == "section") && samples.Of(1, 2, 2) == 1 && !*update {
			continue // the odds of seven materials, and what the figures of one of each kind show too
		}
		t.Run(name, func(t *testing.T) {
			f := draw()
			require.NoError(t, checked(f))
			file := filepath.Join("..", "..", "testdata", "readme", name+".png")
			alike(t, f, 84, file)
			about, err := os.Stat(file)
			require.NoError(t, err)
			require.Less(t, about.Size(), int64(150_000))
		})
	}
}
