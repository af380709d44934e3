package table

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion"
	"strandry/diffusion/advice"
	"strandry/materials"
)

// members counts the constants of an enumeration in its source, so that one added
// there without words here is found.
func members(t *testing.T, file, typeName string) int {
	t.Helper()
	tree, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", "..", file), nil, 0)
	require.NoError(t, err)
	for _, d := range tree.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.CONST || len(g.Specs) == 0 {
			continue
		}
		first := g.Specs[0].(*ast.ValueSpec)
		if id, ok := first.Type.(*ast.Ident); ok && id.Name == typeName {
			return len(g.Specs)
		}
	}
	t.Fatalf("no constants of type %s in %s", typeName, file)
	return 0
}

// distinct requires a text of its own for every member.
func distinct(t *testing.T, count int, text func(i int) string) {
	t.Helper()
	require.Greater(t, count, 1)
	seen := map[string]int{}
	for i := range count {
		s := text(i)
		require.NotEmpty(t, strings.Trim(s, " .:%!"), "member %d has no words", i)
		require.NotContains(t, s, "%!")
		require.NotContains(t, s, "unknown")
		require.NotContains(t, seen, s, "member %d speaks as another", i)
		seen[s] = i
	}
}

func TestEveryConcernHasWords(t *testing.T) {
	m := answer().Design
	count := members(t, "diffusion/warnings.go", "Concern")
	distinct(t, count, func(i int) string {
		s := say(diffusion.Warning{Concern: diffusion.Concern(i), Zone: "drum", Value: 353.15, Limit: 343.15, Text: ""}, m)
		if diffusion.Concern(i) == diffusion.FilmNote {
			s = say(diffusion.Warning{Concern: diffusion.FilmNote, Zone: "drum", Text: "slow flow."}, m)
			require.Equal(t, "drum: slow flow.", s)
		}
		require.NotEqual(t, "drum: .", s)
		return s
	})
	gained := say(diffusion.Warning{Concern: diffusion.Evaporation, Zone: "guide", Value: -2, Limit: 1}, m)
	require.Contains(t, gained, "water taken up warms the strand by some 2.0 K")
}

func TestEveryCauseChangeVerdictAndKindHasWords(t *testing.T) {
	distinct(t, members(t, "diffusion/advice/diagnosis.go", "Cause"), func(i int) string {
		a := answer()
		a.Diagnosis.Cause = advice.Cause(i)
		return a.cause()
	})
	distinct(t, members(t, "diffusion/advice/change.go", "Kind"), func(i int) string {
		return answer().change(&advice.Change{Kind: advice.Kind(i), Parts: []advice.Part{{Was: "300 m", Is: "320 m"}}})
	})
	distinct(t, members(t, "diffusion/assess.go", "Verdict"), func(i int) string {
		return Meaning(&diffusion.Design{}, &diffusion.Assessment{Verdict: diffusion.Verdict(i)})
	})
	distinct(t, members(t, "diffusion/survival.go", "Survival"), func(i int) string {
		return Survives("PA6", diffusion.Endurance{Survival: diffusion.Survival(i), Zone: "drum", Strand: 350, Air: 360, Bears: 340, Yields: 345})
	})
	distinct(t, members(t, "materials/value.go", "Kind"), func(i int) string { return kind(materials.Kind(i)) })
	for _, form := range []materials.Form{materials.Henry, materials.GAB, materials.TwoTerm} {
		p := polymer()
		p.Sorption.Form = form
		require.True(t, slices.ContainsFunc(lines(&p), func(l line) bool { return strings.HasPrefix(l.name, "isotherm (") }), form)
	}
}

func TestOriginAlwaysTellsTheKind(t *testing.T) {
	require.Equal(t, "common practice, no source", origin(materials.Practice, "common practice, no source"))
	require.Equal(t, "a fit, from memory", origin(materials.Memory, "a fit, from memory"))
	require.Equal(t, "its range from memory [published]", origin(materials.Published, "its range from memory"))
	require.Equal(t, "a book, from memory, and a guess [from memory]", origin(materials.Memory, "a book, from memory, and a guess"))
	require.Equal(t, "given", origin(materials.Given, ""))
}

// Desiccant is spoken of where the air is as dry as only a desiccant makes it.
func TestCautions(t *testing.T) {
	m := answer().Design
	require.Contains(t, strings.Join(Cautions(m), " "), "desiccant dust")
	m.Path[0].Air.VapourPressure = 1200
	all := strings.Join(Cautions(m), " ")
	require.NotContains(t, all, "desiccant")
	for _, needed := range []string{"burn", "fire", "cut-out", "licensed electrician", "local electrical", "ventilate", "Do not melt it. (common practice, no source)"} {
		require.Contains(t, all, needed)
	}
}

// Where the numbers alone leave it open, it is not laid on the diffusivity.
func TestUnsureByTheNumbers(t *testing.T) {
	a := answer()
	a.Assessment.Verdict, a.Assessment.NumericallyUnsure, a.Assessment.Endurance.Survival = diffusion.Unsure, true, diffusion.Holds
	a.Assessment.Probability = 0.91
	require.Equal(t, "UNSURE: within the limit 91 times in 100, but for the numerical error", Meaning(a.Design, a.Assessment))
	a.Diagnosis.Cause = advice.Nothing
	require.Contains(t, a.cause(), "which the numerical error leaves in doubt")
}

// Nothing that was drawn is certain.
func TestChance(t *testing.T) {
	for p, want := range map[float64]string{
		0: "less than once in 100", 0.0049: "less than once in 100", 0.0051: "once in 100", 0.5: "50 times in 100",
		0.994: "99 times in 100", 0.898: "89 times in 100", 0.9: "90 times in 100", 0.102: "11 times in 100", 0.1: "10 times in 100", 0.9951: "more than 99 times in 100", 1: "more than 99 times in 100",
	} {
		require.Equal(t, want, Chance(p), "%g", p)
	}
	require.Equal(t, []string{"<1", "1", "50", ">99"}, []string{chance(0), chance(0.01), chance(0.5), chance(1)})
	require.Equal(t, "0.24 to 0.41 %", Spanned(0.0024, 0.0041))
	require.Equal(t, "0.2400 to 0.2401 %", Spanned(0.0024, 0.002401))
}
