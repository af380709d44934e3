package strict

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/text/quantity"
)

// The grammar is that of TOML 1.0.0 (toml.io, 2021): every way to write a key.
func TestPositions(t *testing.T) {
	text := "\ufeff# comment [not.a.table]\r\n" +
		"title = \"a # no comment [x]\" # comment\r\n" + // 2
		"a.b . c = 1\n" + // 3
		"\"quoted key\" = 'x\\'\n" + // 4
		"long = \"\"\"\nfalse = 1\n[no]\n\\\"\"\"\"\n" + // 5-8
		"raw = '''\nnone = 2''''\n" + // 9-10
		"inline = { x = 1, y.z = [ { p = 1 }, { p = 2 } ], s = \"}\" }\n" + // 11
		"list = [\n  1, # one\n  \"]\",\n  [ 2 ],\n]\n" + // 12-16
		"[strand]\nmoisture = \"2.5 %\"\n" + // 17-18
		"[[zone]]\nname = \"a\"\n[zone.air]\nflow = 1\n[[zone.hole]]\nd = 1\n[[zone.hole]]\n" + // 19-25
		"[[ zone ]]\nname = \"b\"\n[[zone.hole]]\nd = 2\n[zone.'odd.key']\nk=1" // 26-31
	_, reader, err := Parse("x.toml", []byte(text))
	require.NoError(t, err)
	for path, line := range map[string]int{
		"title": 2, "a": 3, "a.b.c": 3, `"quoted key"`: 4, "long": 5, "raw": 9, "inline": 11, "inline.x": 11,
		"inline.y.z[2].p": 11, "inline.s": 11, "list": 12, "list[1]": 13, "list[2]": 14, "list[3]": 15, "list[3][1]": 15,
		"strand": 17, "strand.moisture": 18, "zone[1]": 19, "zone[1].name": 20, "zone[1].air.flow": 22,
		"zone[1].hole[1].d": 24, "zone[1].hole[2]": 25, "zone[2].name": 27, "zone[2].hole[1].d": 29, `zone[2]."odd.key".k`: 31,
	} {
		require.Equal(t, line, reader.lines[path], path)
	}
	for _, path := range []string{"false", "no", "none", "x", "not"} {
		require.NotContains(t, reader.lines, path)
	}
	require.Equal(t, 20, reader.line("zone[1].name.deeper"))
	require.Zero(t, reader.line("nowhere"))
}

func TestEveryFaultInOneGo(t *testing.T) {
	text := `title = 3
[strand]
diameter = 1.75
moisture = "250 %"
material = "p6"
[[zone]]
lenght = "12 m"
temperature = "110 P"
count = 2.5
ratio = nan
air = { flw = "2 L/min" }
open = "yes"
[zonee]
`
	root, reader, err := Parse("drum.toml", []byte(text))
	require.NoError(t, err)
	root.Text("title")
	root.Require("feed")
	strand := root.Table("strand")
	strand.Quantity("diameter", quantity.Length(), Limits{Min: 1e-4, Max: 0.01})
	strand.Quantity("moisture", quantity.Fraction(), Limits{Max: 0.5, ExclusiveMax: true})
	strand.Choice("material", []string{"pa6", "pla"})
	zone := root.Tables("zone")[0]
	zone.Quantity("length", quantity.Length(), Limits{})
	zone.Quantity("temperature", quantity.Temperature(), Limits{})
	zone.Integer("count", Limits{})
	zone.Number("ratio", Limits{Min: 0, Max: 1})
	zone.Bool("open")
	zone.OneOf("speed", "flow")
	zone.Table("air").Quantity("flow", quantity.VolumeFlow(), Limits{})
	err = reader.Finish()
	var faults Faults
	require.ErrorAs(t, err, &faults)
	require.Equal(t, strings.TrimSpace(`
drum.toml: feed: missing
drum.toml:1: title = 3: a whole number where a text belongs
drum.toml:3: strand.diameter = 1.75: a number where a length with its unit belongs; allowed: a text, a number with one of m, mm, cm, km, µm, in, ft
drum.toml:4: strand.moisture = "250 %": outside the limits; allowed: 0 % to 50 %, 50 % excluded
drum.toml:5: strand.material = "p6": not one of the choices; allowed: pa6, pla; did you mean "pa6"?
drum.toml:6: zone[1]: missing; allowed: exactly one of speed, flow
drum.toml:7: zone[1].lenght = "12 m": unknown key; allowed: length, temperature, count, ratio, open, speed, flow, air; did you mean "length"?
drum.toml:8: zone[1].temperature = "110 P": "P" is not a unit of temperature; allowed: a number with one of °C, degC, K, °F
drum.toml:9: zone[1].count = 2.5: a number where a whole number belongs
drum.toml:10: zone[1].ratio = nan: not a finite number; allowed: 0 to 1
drum.toml:11: zone[1].air.flw = "2 L/min": unknown key; allowed: flow; did you mean "flow"?
drum.toml:12: zone[1].open = "yes": a text where true or false belongs
drum.toml:13: zonee = {…}: unknown key; allowed: title, feed, strand, zone; did you mean "zone"?
`), err.Error())
}

func TestSound(t *testing.T) {
	root, reader, err := Parse("ok.toml", []byte(`
n = 3
x = 2
yes = true
list = ["a", "b"]
high = "500 °C"
zone = [{ a = "1 m" }, { a = "2 m" }]
inner = { k = 1 }`))
	require.NoError(t, err)
	n, ok := root.Integer("n", Limits{Min: 1, Max: 3})
	require.True(t, ok)
	require.Equal(t, 3, n)
	x, ok := root.Number("x", Limits{Min: 1, Max: math.Inf(1), ExclusiveMin: true})
	require.True(t, ok)
	require.Equal(t, 2.0, x)
	yes, ok := root.Bool("yes")
	require.True(t, ok && yes)
	list, ok := root.Texts("list")
	require.True(t, ok)
	require.Equal(t, []string{"a", "b"}, list)
	_, ok = root.Quantity("high", quantity.Temperature(), Limits{Min: 200, Max: 773.15})
	require.True(t, ok)
	require.Len(t, root.Tables("zone"), 2)
	a, ok := root.Tables("zone")[1].Quantity("a", quantity.Length(), Limits{})
	require.True(t, ok)
	require.Equal(t, 2.0, a)
	require.True(t, root.Tables("zone")[0].Has("a"))
	require.Equal(t, "zone[2]", root.Tables("zone")[1].Path())
	require.True(t, root.IsTable("inner"))
	require.Equal(t, "inner", root.OneOf("inner", "outer"))
	require.Same(t, root.Table("inner"), root.Table("inner"))
	require.Equal(t, []string{"k"}, root.Table("inner").Keys())
	require.True(t, root.Table("inner").Has("k"))
	_, ok = root.Quantity("absent", quantity.Length(), Limits{})
	require.False(t, ok)
	require.Nil(t, root.Table("absent"))
	require.NoError(t, reader.Finish())
}

func TestSyntax(t *testing.T) {
	for text, says := range map[string]string{
		"a = 1\nb = \n":       "x.toml:2: not valid TOML",
		"a = 1\na = 2\n":      "x.toml:2: not valid TOML",
		"[a]\n[a]\n":          "x.toml:2: not valid TOML",
		"a = \"unclosed\nb=1": "x.toml:1: not valid TOML",
		"a = \"\xff\"":        "x.toml:1: not valid TOML",
	} {
		_, _, err := Parse("x.toml", []byte(text))
		require.ErrorContains(t, err, says, text)
	}
	// What the parser repeats of the text is told in short.
	_, _, err := Parse("x.toml", []byte("a = "+strings.Repeat("9", 1e5)+"\n"))
	require.ErrorContains(t, err, "x.toml:1: not valid TOML")
	require.Less(t, len(err.Error()), 300)
	_, _, err = Parse("x.toml", make([]byte, MaxSize+1))
	require.ErrorContains(t, err, "too long")
	for _, deep := range []string{
		"a = " + strings.Repeat("[", 2000) + strings.Repeat("]", 2000),
		strings.Repeat("a.", 2000) + "a = 1",
		"[" + strings.Repeat("a.", 2000) + "a]\n",
		"z = " + strings.Repeat("{a=", 80000),
	} {
		_, _, err = Parse("x.toml", []byte("# [[[ \n"+deep))
		require.ErrorContains(t, err, "x.toml:2: tables, arrays or dotted keys nested too deep; allowed: up to 32 levels")
	}
	brackets := strings.Repeat("[", 100)
	_, _, err = Parse("x.toml", []byte("a = '"+brackets+"' # "+brackets+"\nb = [1.5, 2.5]\n"))
	require.NoError(t, err)
}

func TestLimitsText(t *testing.T) {
	inf := math.Inf(1)
	for want, l := range map[string]Limits{
		"above 0 mm":                            {Max: inf, ExclusiveMin: true},
		"0 mm or more":                          {Max: inf},
		"below 1 m":                             {Min: -inf, Max: 1, ExclusiveMax: true, Unit: "m"},
		"1 m or less":                           {Min: -inf, Max: 1, Unit: "m"},
		"1 mm to 20 mm":                         {Min: 1e-3, Max: 0.02},
		"0 mm to 1 mm, both ends excluded":      {Max: 1e-3, ExclusiveMin: true, ExclusiveMax: true},
		"0 mm to 1 mm, 0 mm excluded":           {Max: 1e-3, ExclusiveMin: true},
		"any finite value":                      {Min: -inf, Max: inf},
		"-1000 mm to 1000 mm, 1000 mm excluded": {Min: -1, Max: 1, ExclusiveMax: true},
	} {
		require.Equal(t, want, l.text(quantity.Length()))
	}
}

func FuzzParse(f *testing.F) {
	for _, text := range []string{"a = 1", "[a.b]\nc = {d = [1, {e = 2}]}", "[[z]]\nx='''a'''\n[[z]]", "\"a\\u0041\" = 1", "x = nan",
		"a = [[[", "\xef\xbb\xbfa=1\r\n", "'' = 1", "a = \"\"\"\\\"\"\"\""} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		positions(text) // ends on any text
		root, reader, err := Parse("f.toml", []byte(text))
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		ask(t, root)
		if err := reader.Finish(); err != nil {
			require.NotContains(t, err.Error(), "unknown key")
		}
	})
}

// ask puts every question to every key: each must have a line of its own, and no
// number that is not finite may pass.
func ask(t *testing.T, table *Table) {
	for _, key := range table.Keys() {
		require.Contains(t, table.reader.lines, join(table.path, key))
		x, ok := table.Number(key, Limits{})
		require.False(t, ok && (math.IsNaN(x) || math.IsInf(x, 0)))
		table.Quantity(key, quantity.Length(), Limits{})
		table.Texts(key)
		table.Bool(key)
		if table.IsTable(key) {
			ask(t, table.Table(key))
			continue
		}
		for _, child := range table.Tables(key) {
			ask(t, child)
		}
	}
}

func TestManyFaultsAreToldInFew(t *testing.T) {
	all := make(Faults, 1000)
	for i := range all {
		all[i] = Fault{File: "x.toml", Line: i + 1, Key: strings.Repeat("k", 5000), Given: strings.Repeat("v", 5000), Problem: "unknown key"}
	}
	said := all.Error()
	require.Equal(t, mostTold, strings.Count(said, "\n"))
	require.True(t, strings.HasSuffix(said, "\nand 960 more"))
	require.Less(t, len(said), 20000)
	require.NotContains(t, all[:mostTold].Error(), "more")
}

func TestQuantityOrAWord(t *testing.T) {
	root, reader, err := Parse("t.toml", []byte("a = \"any\"\nb = \"2 m\"\nc = \"yna\"\nd = \"2 kg\"\ne = 3\n"))
	require.NoError(t, err)
	ask := func(key string) (float64, bool, string) {
		return root.QuantityOr([]string{"any", "none"}, key, quantity.Length(), Limits{Max: 10, Unit: "m"})
	}
	_, ok, said := ask("a")
	require.False(t, ok)
	require.Equal(t, "any", said)
	si, ok, said := ask("b")
	require.True(t, ok)
	require.Empty(t, said)
	require.InDelta(t, 2, si, 0)
	for _, key := range []string{"c", "d", "e", "absent"} {
		_, ok, said = ask(key)
		require.False(t, ok, key)
		require.Empty(t, said, key)
	}
	err = reader.Finish()
	require.ErrorContains(t, err, `c = "yna": neither a length nor a word that is known here; allowed: any, none, or a number with one of`)
	require.ErrorContains(t, err, `t.toml:4: d = "2 kg"`)
	require.ErrorContains(t, err, `t.toml:5: e = 3: `)
	require.NotContains(t, err.Error(), "absent")
}
