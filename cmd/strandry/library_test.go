package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The README shows the example of package diffusion, which is run where it stands, with what it imports.
func TestReadmeLibrary(t *testing.T) {
	readme := filepath.Join("..", "..", "README.md")
	text, err := os.ReadFile(readme)
	require.NoError(t, err)
	source, err := os.ReadFile(filepath.Join("..", "..", "diffusion", "example_test.go"))
	require.NoError(t, err)
	parts := regexp.MustCompile(`(?ms)^(import \(.*?^\))$.*^func Example\(\) \{\n(.*?)^\}$`).FindStringSubmatch(string(source))
	require.Len(t, parts, 3)
	want := parts[1] + "\n\n" + strings.TrimPrefix(strings.ReplaceAll("\n"+parts[2], "\n\t", "\n"), "\n")
	block := regexp.MustCompile("(?ms)(^## As a library$.*?^```go\n)(.*?)(^```$)")
	at := block.FindSubmatchIndex(text)
	require.NotNil(t, at)
	if *tour {
		fresh := string(text[:at[4]]) + want + string(text[at[5]:])
		require.NoError(t, os.WriteFile(readme, []byte(fresh), 0o644))
		return
	}
	require.Equal(t, want, string(text[at[4]:at[5]]))
}
