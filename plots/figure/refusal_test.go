package figure

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/plots/canvas"
)

func TestRefusals(t *testing.T) {
	t.Parallel()
	broken := func(change func(m *diffusion.Design, t *diffusion.Trace)) Path {
		p := Path{Frame: frame(), Design: model(), Trace: trace()}
		change(p.Design, p.Trace)
		return p
	}
	cut := func(change func(s *diffusion.Section)) Section {
		f := aSection()
		change(&f.Trace.Sections[1])
		return f
	}
	for name, f := range map[string]Figure{
		"no trace":          Path{Frame: frame(), Design: model()},
		"no model":          Heatmap{Frame: frame(), Trace: trace()},
		"one point":         broken(func(_ *diffusion.Design, t *diffusion.Trace) { t.Points = t.Points[:1] }),
		"mean not a number": broken(func(_ *diffusion.Design, t *diffusion.Trace) { t.Points[3].Mean = math.NaN() }),
		"profile not a number": func() Figure {
			p := Profiles{Frame: frame(), Design: model(), Trace: trace()}
			p.Trace.Points[3].Profile[2] = math.Inf(1)
			return p
		}(),
		"short profile": func() Figure {
			h := Heatmap{frame(), model(), trace()}
			h.Trace.Points[3].Profile = h.Trace.Points[3].Profile[:4]
			return h
		}(),
		"another model's trace": broken(func(m *diffusion.Design, _ *diffusion.Trace) { m.Path = m.Path[:1] }),
		"backwards":             broken(func(_ *diffusion.Design, t *diffusion.Trace) { t.Points[3].Position = 99 }),
		"limit of zero":         broken(func(m *diffusion.Design, _ *diffusion.Trace) { m.Limit = 0 }),
		"section of open zone":  func() Figure { f := aSection(); f.Zone = 1; return f }(),
		"section of no zone":    func() Figure { f := aSection(); f.Trace.Sections[0].Zone, f.Zone = 7, 7; return f }(),
		"too many sections": func() Figure {
			f := aSection()
			f.Trace.Sections = append(f.Trace.Sections, f.Trace.Sections[0])
			return f
		}(),
		"section not a number":    cut(func(s *diffusion.Section) { s.Content[2][1] = math.NaN() }),
		"section negative":        cut(func(s *diffusion.Section) { s.Content[2][1] = -1e-3 }),
		"section ragged":          cut(func(s *diffusion.Section) { s.Content[2] = s.Content[2][1:] }),
		"section short":           cut(func(s *diffusion.Section) { s.Content = s.Content[1:] }),
		"section angles fall":     cut(func(s *diffusion.Section) { s.Angle[1] = 0 }),
		"section beyond":          cut(func(s *diffusion.Section) { s.Angle[6] = 3 }),
		"section without arcs":    cut(func(s *diffusion.Section) { s.Arcs = 0 }),
		"section all exposed":     cut(func(s *diffusion.Section) { s.Exposed = 1 }),
		"section mean infinite":   cut(func(s *diffusion.Section) { s.Mean = math.Inf(1) }),
		"map empty":               Map{},
		"map not a number":        func() Figure { m := aMap(); m.Content[1][2] = math.NaN(); return m }(),
		"map infinite":            func() Figure { m := aMap(); m.Content[1][2] = math.Inf(-1); return m }(),
		"map negative":            func() Figure { m := aMap(); m.Content[1][2] = -1e-3; return m }(),
		"map ragged":              func() Figure { m := aMap(); m.Content[1] = m.Content[1][1:]; return m }(),
		"map short":               func() Figure { m := aMap(); m.Content = m.Content[1:]; return m }(),
		"axis falls":              func() Figure { m := aMap(); m.X.Values[3] = 0.1; return m }(),
		"axis from zero":          func() Figure { m := aMap(); m.X.Values[0] = 0; return m }(),
		"mark not a number":       func() Figure { m := aMap(); m.Here.X = math.NaN(); return m }(),
		"map half a doubt":        func() Figure { m := aMap(); m.Ratio = m.Ratio[1:]; return m }(),
		"map doubt not a number":  func() Figure { m := aMap(); m.Ratio[1][2].High = math.NaN(); return m }(),
		"map doubt of zero":       func() Figure { m := aMap(); m.Ratio[1][2].Low = 0; return m }(),
		"line doubt ragged":       func() Figure { l := aLine(); l.Ratio = l.Ratio[1:]; return l }(),
		"path band short":         func() Figure { p := aPath(); p.Span = p.Span[1:]; return p }(),
		"path band infinite":      func() Figure { p := aPath(); p.Span[2].High = math.Inf(1); return p }(),
		"needed doubt short":      func() Figure { n := aNeeded(); n.NineInTen = n.NineInTen[1:]; return n }(),
		"needed doubt infinite":   func() Figure { n := aNeeded(); n.OneInTen[1] = math.Inf(1); return n }(),
		"line short":              func() Figure { l := aLine(); l.Content = l.Content[1:]; return l }(),
		"line half a spread":      func() Figure { l := aLine(); l.Low = nil; return l }(),
		"line not a number":       func() Figure { l := aLine(); l.High[4] = math.NaN(); return l }(),
		"needed empty":            Needed{},
		"needed ragged":           func() Figure { n := aNeeded(); n.Lengths[1] = n.Lengths[1][1:]; return n }(),
		"needed infinite":         func() Figure { n := aNeeded(); n.Lengths[1][1] = math.Inf(1); return n }(),
		"needed negative":         func() Figure { n := aNeeded(); n.Lengths[1][1] = -1; return n }(),
		"machine empty":           Machine{},
		"machine without a way":   func() Figure { f := aMachine(); f.Chambers[0].Way = nil; return f }(),
		"machine without a view":  func() Figure { f := aMachine(); f.Chambers[0].Outline.Views = nil; return f }(),
		"machine of no size":      func() Figure { f := aMachine(); f.Chambers[0].Outer[1] = 0; return f }(),
		"machine view of no size": func() Figure { f := aMachine(); f.Chambers[0].Outline.Views[1].Width = 0; return f }(),
		"machine insulated less":  func() Figure { f := aMachine(); f.Chambers[0].Insulation = -0.01; return f }(),
		"machine not a number":    func() Figure { f := aMachine(); f.Chambers[0].Needed = math.NaN(); return f }(),
		"filling empty":           Filling{},
		"filling ragged":          func() Figure { f := aFilling(); f.Dew = f.Dew[1:]; return f }(),
		"filling back in time":    func() Figure { f := aFilling(); f.Hours[3] = 0; return f }(),
		"filling beside its band": func() Figure { f := aFilling(); f.Low = 61; return f }(),
		"filling no life":         func() Figure { f := aFilling(); f.Life, f.Low = 0, 0; return f }(),
		"suits empty":             Suits{Longest: 20},
		"suits not a number":      func() Figure { s := aSuits(); s.Rows[3].Length = math.NaN(); return s }(),
		"suits outside":           func() Figure { s := aSuits(); s.Rows[3].Reliable = 1e-6; return s }(),
		"suits negative":          func() Figure { s := aSuits(); s.Rows[3].Length = -1; return s }(),
		"suits reliable alone":    func() Figure { s := aSuits(); s.Rows[3].Length = 0; return s }(),
		"suits two lengths":       func() Figure { s := aSuits(); s.Rows[3].Any = true; return s }(),
		"suits path not a number": func() Figure { s := aSuits(); s.Given = math.NaN(); return s }(),
		"suits no name":           func() Figure { s := aSuits(); s.Rows[3].Material = ""; return s }(),
	} {
		for _, format := range canvas.Formats() {
			out, err := Encode(f, format)
			require.Error(t, err, "%s as %s", name, format)
			require.Empty(t, out, name)
		}
	}
}
