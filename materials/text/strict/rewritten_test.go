package strict

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestRewritten(t *testing.T) {
	for text, want := range map[string]string{
		`a = "x" # "x"`:                            `a = "y" # "x"`,
		`b = "x"`:                                  `b = "x"`,
		`t.a='x'`:                                  `t.a="y"`,
		`"a" = ["z", 'x', """x"""]`:                `"a" = ["z", "y", "y"]`,
		`c = 1` + "\n" + `a="x"`:                   `c = 1` + "\n" + `a="y"`,
		`a = { b = "x", a = "x" }`:                 `a = { b = "x", a = "y" }`,
		`b = "\"" ` + "\n" + `a = "x"`:             `b = "\"" ` + "\n" + `a = "y"`,
		"b = '''it's ''''\na = \"x\"":              "b = '''it's ''''\na = \"y\"",
		"b = \"\"\"a = \"x\" \\\"\"\"\"\n#\na='x'": "b = \"\"\"a = \"x\" \\\"\"\"\"\n#\na=\"y\"",
		`a = "unended`:                             `a = "unended`,
		`# a = "x"`:                                `# a = "x"`,
		`["x"]` + "\n" + `a = "\u0078"`:            `["x"]` + "\n" + `a = "y"`,
		"":                                         "",
	} {
		got := Rewritten([]byte(text), func(key, value string) (string, bool) { return `"y"`, key == "a" && value == "x" })
		require.Equal(t, want, string(got))
	}
}
