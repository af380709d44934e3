package main

import (
	"bytes"
	"context"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
)

var tour = flag.Bool("update-readme", false, "rewrite the output in README.md")

// elided stands in the README for output that is left out.
const elided = "…"

// The tour of the README shows what the commands print: a block that begins with
// "$ strandry ARGUMENTS" is followed by the output, which may be cut by lines that
// hold only an ellipsis.
func TestReadmeTour(t *testing.T) { // not beside others: it works where the README stands
	if testing.Short() {
		t.Skip("slow, and its code is run by others")
	}
	t.Chdir(filepath.Join("..", ".."))
	const readme = "README.md"
	text, err := os.ReadFile(readme)
	require.NoError(t, err)
	blocks := regexp.MustCompile("(?ms)^```\n\\$ strandry ([^\n]*)\n(.*?)^```$")
	found := blocks.FindAllStringSubmatchIndex(string(text), -1)
	require.GreaterOrEqual(t, len(found), 3)
	if !*tour {
		found = samples.Each(5, found)
	}
	var fresh strings.Builder
	end := 0
	for _, at := range found {
		arguments := strings.Fields(string(text[at[2]:at[3]]))
		shown := string(text[at[4]:at[5]])
		var out, errOut bytes.Buffer
		require.Equal(t, answered, run(context.Background(), arguments, &out, &errOut), errOut.String())
		narrow(t, out.String())
		if *tour {
			fresh.Write(text[end:at[4]])
			fresh.WriteString(cut(out.String(), shown))
			end = at[5]
			continue
		}
		requireShown(t, out.String(), shown)
	}
	if *tour {
		fresh.Write(text[end:])
		require.NoError(t, os.WriteFile(readme, []byte(fresh.String()), 0o644))
	}
}

// requireShown checks that the parts between ellipses occur in the output in their order,
// the first at its beginning.
func requireShown(t *testing.T, output, shown string) {
	t.Helper()
	for i, part := range strings.Split(shown, elided+"\n") {
		at := strings.Index(output, part)
		require.GreaterOrEqual(t, at, 0, "not in the output:\n%s", part)
		if i == 0 {
			require.Zero(t, at)
		}
		output = output[at+len(part):]
	}
}

// cut keeps as many lines of the output as the README showed before its first ellipsis.
func cut(output, shown string) string {
	first, _, isCut := strings.Cut(shown, elided+"\n")
	if !isCut {
		return output
	}
	lines := strings.SplitAfter(output, "\n")
	return strings.Join(lines[:min(len(lines), strings.Count(first, "\n"))], "") + elided + "\n"
}
