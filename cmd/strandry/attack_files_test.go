package main

import (
	"encoding/binary"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"

	"strandry/diffusion/samples"
)

// oddFile is a file that is not what it should be. make puts it in a place, where a sound text would be.
type oddFile struct {
	name string
	read bool // as the sound text; else refused, or, where free is set, either
	free bool
	make func(t *testing.T, path, sound string)
}

// TestAttackFiles hands odd files to all that reads files, as scenarios and as materials: no panic, no hang, words that name the file, and
// nothing written; or the answer of the sound file.
func TestAttackFiles(t *testing.T) {
	t.Parallel()
	type attack struct {
		oddFile
		material bool
	}
	var all []attack
	for _, f := range oddFiles() {
		all = append(all, attack{f, false}, attack{f, true})
	}
	require.Len(t, all, 84)
	for _, a := range sampled(attackDice(t, 7, 0), all, samples.Of(3, 8, len(all))) {
		what, sound, verbs := "scenario", plain().text(), scenarioVerbs
		if a.material {
			what, sound, verbs = "material", "base = \"petg\"\nname = \"Mine\"\n", materialVerbs
		}
		t.Run(what+" "+a.name, func(t *testing.T) { a.handed(t, sound, verbs) })
	}
}

// scenarioVerbs are all that read a scenario; the first shows its answer. made is a folder that is not there.
func scenarioVerbs(_ *testing.T, path, made string) [][]string {
	return [][]string{{"run", path}, {"run", "--json", path}, {"size", path, "--for", "feed.speed"}, {"suits", path}, {"keeps", path},
		{"sweep", path, "-o", made, "--vary", "feed.speed=1 mm/s, 2 mm/s"}, {"plot", path, "-o", made}, {"buildlog", path, "-o", made}}
}

// materialVerbs are all that read a material.
func materialVerbs(t *testing.T, path, made string) [][]string {
	naming := plain().with("strand.material", quotedPath(path)).file(t)
	good := plain().file(t)
	return [][]string{{"materials", path}, {"materials", "--json", path}, {"suits", good, "--material", path}, {"keeps", good, "--material", path},
		{"run", naming}, {"size", naming, "--for", "feed.speed"}, {"buildlog", naming, "-o", made}}
}

// quotedPath is a literal TOML text.
func quotedPath(path string) string { return "'" + path + "'" }

func (f oddFile) handed(t *testing.T, sound string, verbs func(t *testing.T, path, made string) [][]string) {
	folder := t.TempDir()
	path, made := filepath.Join(folder, "odd.toml"), filepath.Join(folder, "made")
	require.NoError(t, os.WriteFile(path, []byte(sound), 0o600))
	all := verbs(t, path, made)
	want := fired(t, 2, all[0]...)
	require.Equal(t, answered, want.status, want.errOut)
	require.NoError(t, os.Remove(path))
	f.make(t, path, sound)
	got := fired(t, 2, all[0]...)
	if f.read || f.free && got.status == answered {
		require.Equal(t, want.status, got.status, got.errOut)
		if f.read {
			require.Equal(t, want.out, got.out)
		}
		return
	}
	before := names(t, folder)
	for _, args := range all {
		s := fired(t, 2, args...)
		require.Equal(t, failed, s.status, args)
		require.Contains(t, s.errOut, "odd.toml", args)
		require.Less(t, len(s.errOut), 20_000, args)
	}
	require.Equal(t, before, names(t, folder))
}

// oddFiles are the 42, each once as a scenario and once as a material.
func oddFiles() []oddFile {
	written := func(change func(sound string) string) func(*testing.T, string, string) {
		return func(t *testing.T, path, sound string) {
			require.NoError(t, os.WriteFile(path, []byte(change(sound)), 0o600))
		}
	}
	constant := func(text string) func(*testing.T, string, string) {
		return written(func(string) string { return text })
	}
	before := func(text string) func(*testing.T, string, string) {
		return written(func(sound string) string { return text + sound })
	}
	after := func(text string) func(*testing.T, string, string) {
		return written(func(sound string) string { return sound + text })
	}
	const many = 100_000
	all := []oddFile{
		{name: "byte order mark", read: true, make: before("\ufeff")},
		{name: "line ends of another system", read: true, make: written(func(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") })},
		{name: "no last line end", read: true, make: written(strings.TrimSpace)},
		{name: "a comment of accents", read: true, make: before("# äöü 漢字\n")},
		{name: "empty lines", read: true, make: after(strings.Repeat("\n", 3000))},
		{name: "empty", make: constant("")},
		{name: "a mark alone", make: constant("\ufeff")},
		{name: "two marks", free: true, make: before("\ufeff\ufeff")},
		{name: "old line ends", free: true, make: written(func(s string) string { return strings.ReplaceAll(s, "\n", "\r") })},
		{name: "a zero byte within", make: written(func(s string) string { return s[:9] + "\x00" + s[9:] })},
		{name: "zero bytes at the end", make: after(strings.Repeat("\x00", 4096))},
		{name: "no unicode in a comment", free: true, make: before("# \xff\xfe\n")},
		{name: "no unicode in a key", make: before("\xb0C = 1\n")},
		{name: "sixteen bits", make: written(sixteenBits)},
		{name: "a page", make: constant("<!DOCTYPE html>\n<html><body>not found</body></html>\n")},
		{name: "JSON", make: constant(`{"strand": {"material": "pa6"}}`)},
		{name: "packed", make: constant("\x1f\x8b\x08\x00\x00\x00\x00\x00\x02\xff")},
		{name: "deep lists", make: before("a = " + strings.Repeat("[", many) + strings.Repeat("]", many) + "\n")},
		{name: "deep tables", make: before("a = " + strings.Repeat("{a = ", 20_000) + "1" + strings.Repeat("}", 20_000) + "\n")},
		{name: "a deep key", make: before(strings.Repeat("a.", many) + "a = 1\n")},
		{name: "a deep head", make: after("[" + strings.Repeat("a.", many) + "a]\n")},
		{name: "many digits", make: before("a = " + strings.Repeat("9", many) + "\n")},
		{name: "a great exponent", make: before("a = 1e999999999\n")},
		{name: "a key twice", make: before("title = \"a\"\ntitle = \"b\"\n")},
		{name: "a table twice", make: after("[x]\n[x]\n")},
		{name: "a key of a megabyte", make: before(strings.Repeat("k", 1<<20-600) + " = 1\n")},
		{name: "a long key", make: before(strings.Repeat("k", 200_000) + " = 1\n")},
		{name: "a long text", make: before("x = \"" + strings.Repeat("v", 200_000) + "\"\n")},
		{name: "many keys", make: after(manyLines(20_000, "k", " = 1\n"))},
		{name: "many tables", make: after(manyLines(20_000, "[t", "]\n"))},
		{name: "an open text", make: after("x = \"open\n")},
		{name: "an open list", make: after("x = [1, 2,\n")},
		{name: "an escape that is none", make: before(`x = "\q"` + "\n")},
		{name: "a date for a number", make: before("density = 1979-05-27\n")},
	}
	return append(all, oddPlaces()...)
}

func manyLines(count int, before, after string) string {
	var text strings.Builder
	for i := range count {
		text.WriteString(before + strings.Repeat("a", i%7) + string(rune('a'+i%26)) + strings.Repeat("b", i/182) + after)
	}
	return text.String()[:200_000] + "\n"
}

func sixteenBits(text string) string {
	out := []byte{0xff, 0xfe}
	for _, unit := range utf16.Encode([]rune(text)) {
		out = binary.LittleEndian.AppendUint16(out, unit)
	}
	return string(out)
}

// oddPlaces are no ordinary files.
func oddPlaces() []oddFile {
	link := func(to func(path string) string) func(*testing.T, string, string) {
		return func(t *testing.T, path, _ string) { require.NoError(t, os.Symlink(to(path), path)) }
	}
	return []oddFile{
		{name: "a folder", make: func(t *testing.T, path, _ string) { require.NoError(t, os.Mkdir(path, 0o700)) }},
		{name: "a pipe", make: func(t *testing.T, path, _ string) { require.NoError(t, exec.Command("mkfifo", path).Run()) }},
		{name: "no right to read", free: true, make: func(t *testing.T, path, sound string) { // but for the superuser
			require.NoError(t, os.WriteFile(path, []byte(sound), 0o000))
		}},
		{name: "a link to a sound file", read: true, make: func(t *testing.T, path, sound string) {
			elsewhere := filepath.Join(t.TempDir(), "elsewhere.toml")
			require.NoError(t, os.WriteFile(elsewhere, []byte(sound), 0o600))
			require.NoError(t, os.Symlink(elsewhere, path))
		}},
		{name: "a link to itself", make: link(func(path string) string { return path })},
		{name: "a link to nothing", make: link(func(path string) string { return path + ".none" })},
		{name: "a device without end", make: link(func(string) string { return "/dev/zero" })},
		{name: "a hole", make: func(t *testing.T, path, sound string) {
			require.NoError(t, os.WriteFile(path, []byte(sound), 0o600))
			require.NoError(t, os.Truncate(path, 1<<32))
		}},
	}
}
