package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/scenarios"
)

// TestOddFilesAreRefused hands every command that reads files what is none of theirs. The huge one is
// a hole of 100 MB, and no more of it is read than a scenario may be long.
func TestOddFilesAreRefused(t *testing.T) {
	folder := t.TempDir()
	for _, c := range []struct {
		name, content string
		size          int64
		says          string
	}{
		{"empty.toml", "", 0, "empty.toml"},
		{"binary.toml", "\x7fELF\x02\x01\x01\x00\x00", 0, "this is no text file"},
		{"latin.toml", "title = \"60 \xb0C\"\n", 0, "UTF-8"},
		{"huge.toml", "# a hole\n", 100 << 20, "too long"},
	} {
		path := filepath.Join(folder, c.name)
		require.NoError(t, os.WriteFile(path, []byte(c.content), 0o600))
		if c.size > 0 {
			require.NoError(t, os.Truncate(path, c.size))
		}
		for _, args := range [][]string{
			{"run", path}, {"materials", path}, {"size", path, "--for", "feed.speed"}, {"suits", path}, {"keeps", path}, {"suits", "--material", path},
			{"sweep", path, "-o", filepath.Join(folder, "made")}, {"plot", path, "-o", filepath.Join(folder, "made")}, {"buildlog", path, "-o", filepath.Join(folder, "made")},
		} {
			status, out, errOut := call(args...)
			require.Equal(t, failed, status, args)
			require.Empty(t, out, args)
			require.Contains(t, errOut, c.name, args)
			require.Contains(t, errOut, c.says, args)
			finiteText(t, errOut)
		}
	}
	require.Equal(t, []string{"binary.toml", "empty.toml", "huge.toml", "latin.toml"}, names(t, folder))
}

// TestOddLinesAreRead: an editor's line ends and byte order mark do not change the answer.
func TestOddLinesAreRead(t *testing.T) {
	text, err := scenarios.DemoText("lamp-shade")
	require.NoError(t, err)
	path := scenarioFile(t, string(text))
	plain := mustAnswer(t, "run", "--json", path)
	for _, odd := range []string{
		"\ufeff" + string(text), strings.ReplaceAll(string(text), "\n", "\r\n"), "\ufeff" + strings.ReplaceAll(string(text), "\n", "\r\n"), strings.TrimRight(string(text), "\n"),
	} {
		require.NoError(t, os.WriteFile(path, []byte(odd), 0o600))
		require.Equal(t, plain, mustAnswer(t, "run", "--json", path))
	}
}
