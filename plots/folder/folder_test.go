package folder

import (
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"strandry/diffusion/samples"

	"github.com/stretchr/testify/require"
)

func open(t *testing.T, path string) *Folder {
	t.Helper()
	f, err := Open(path)
	require.NoError(t, err)
	return f
}

// tree lists the files below a folder with their contents, but not the marker.
func tree(t *testing.T, folder string) map[string]string {
	t.Helper()
	all := map[string]string{}
	require.NoError(t, filepath.WalkDir(folder, func(path string, entry os.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := os.ReadFile(path)
		name, _ := filepath.Rel(folder, path)
		if name != Marker {
			all[filepath.ToSlash(name)] = string(text)
		}
		return err
	}))
	return all
}

func of(kind string, files map[string]string) Set {
	s := Set{Kind: kind}
	for _, name := range []string{"a.txt", "b/c.txt", "d.txt", "e/f.txt"} {
		if content, ok := files[name]; ok {
			s.Files = append(s.Files, Bytes(name, []byte(content)))
		}
	}
	return s
}

var (
	older = map[string]string{"a.txt": "one", "b/c.txt": "two", "e/f.txt": "three"}
	newer = map[string]string{"a.txt": "1", "b/c.txt": "22", "d.txt": "333"}
)

// Sets are written whole, listed with sums that another program agrees to, and replaced by their own kind.
func TestWrite(t *testing.T) {
	path := filepath.Join(t.TempDir(), "new", "out")
	f := open(t, path)
	require.NoError(t, f.Write(context.Background(), of("plot", older)))
	require.Equal(t, older, tree2(t, path))
	require.NoError(t, f.Write(context.Background(), of("plot", newer)))
	require.True(t, f.Has("plot"))
	require.False(t, f.Has("sweep"))
	require.NoError(t, f.Whole("plot"))
	require.NoError(t, f.Close())
	require.Equal(t, newer, tree(t, path), "nothing else is left, neither lock nor what was before")
	require.NoDirExists(t, filepath.Join(path, "e"))
	if _, err := exec.LookPath("sha256sum"); err == nil {
		c := exec.Command("sha256sum", "--check", "--strict", Marker)
		c.Dir = path
		said, err := c.CombinedOutput()
		require.NoError(t, err, string(said))
	}
	f = open(t, path)
	require.NoError(t, f.Whole("plot"))
	require.NoError(t, os.WriteFile(filepath.Join(path, "a.txt"), []byte("mine"), 0o600))
	require.ErrorContains(t, f.Whole("plot"), "a.txt was changed since it was written")
	require.NoError(t, os.Remove(filepath.Join(path, "a.txt")))
	require.ErrorContains(t, f.Whole("plot"), "a.txt is not there any more")
	require.ErrorContains(t, f.Whole("sweep"), "parts of it are lost")
	require.NoError(t, f.Close())
}

// tree2 leaves out the lock of a folder that is open.
func tree2(t *testing.T, folder string) map[string]string {
	all := tree(t, folder)
	require.Contains(t, all, lockFile)
	delete(all, lockFile)
	return all
}

// What is not ours to replace is left alone and named; nothing is left behind.
func TestRefusals(t *testing.T) {
	path := t.TempDir()
	f := open(t, path)
	require.NoError(t, f.Write(context.Background(), of("plot", older)))
	file := filepath.Join(path, "a.txt")
	input := filepath.Join(t.TempDir(), "linked")
	require.NoError(t, os.Link(file, input))
	foreign := filepath.Join(path, "d.txt")
	require.NoError(t, os.WriteFile(foreign, []byte("mine"), 0o600))
	refused := func(says string, s Set, force bool) {
		t.Helper()
		before := tree(t, path)
		s.Force = force
		require.ErrorContains(t, f.Free(s), says)
		require.ErrorContains(t, f.Write(context.Background(), s), says)
		require.Equal(t, before, tree(t, path))
	}
	for _, force := range []bool{false, true} {
		refused("d.txt exists already, and strandry did not write it: move it away", of("plot", newer), force)
		refused("a.txt belongs to the plot in this folder: name another folder", of("sweep", older), force)
		s := of("plot", older)
		s.Inputs = []string{input}
		refused("a.txt is read by this command, which would replace it", s, force)
		for _, name := range []string{"../x", "/x", ".strandry", ".strandry.lock", "", ".", "a\nb"} {
			refused("no name for a file", Set{Kind: "plot", Files: []File{Bytes(name, nil)}}, force)
		}
	}
	require.NoError(t, os.Remove(foreign))
	require.NoError(t, os.Remove(file))
	require.NoError(t, os.WriteFile(file, []byte("changed"), 0o600))
	refused("a.txt was changed since strandry wrote it: move it away, or --force replaces it", of("plot", newer), false)
	s := of("plot", newer)
	s.Kept = true
	for _, force := range []bool{false, true} {
		refused("a.txt was changed since strandry wrote it: move it away, or name another folder", s, force)
	}
	s.Kept = false
	s.Force = true
	require.NoError(t, f.Write(context.Background(), s))

	// A file that was changed and is no longer of the set stays.
	require.NoError(t, os.WriteFile(foreign, []byte("changed"), 0o600))
	require.NoError(t, f.Write(context.Background(), of("plot", older)))
	require.Equal(t, "changed", tree(t, path)["d.txt"])
	require.NoError(t, f.Close())
}

// No link is followed and no pipe is opened, wherever a file of ours is due.
func TestLinksAndPipes(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no pipes among files")
	}
	outside := t.TempDir()
	victim := filepath.Join(outside, "victim")
	require.NoError(t, os.WriteFile(victim, []byte("mine"), 0o600))
	for _, name := range []string{"a.txt", "b", Marker, lockFile} {
		for kind, place := range map[string]func(string) error{
			"file":   func(at string) error { return os.Symlink(victim, at) },
			"folder": func(at string) error { return os.Symlink(outside, at) },
			"pipe":   func(at string) error { return exec.Command("mkfifo", at).Run() },
		} {
			path := t.TempDir()
			require.NoError(t, place(filepath.Join(path, name)))
			f, err := Open(path)
			if err == nil {
				s := of("plot", older)
				s.Force = true
				err = f.Write(context.Background(), s)
				require.NoError(t, f.Close())
			}
			require.ErrorContains(t, err, name, kind)
			require.ErrorContains(t, err, "move it away", kind)
			require.Len(t, names(t, path), 1, "%s as %s", name, kind)
			require.Equal(t, map[string]string{"victim": "mine"}, tree(t, outside))
		}
	}
}

func names(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var all []string
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return all
}

// killed is a run that ends between two steps.
type killed struct{}

// runs writes a set and ends, by death or by an error, at one of its steps; false when there are no more of them.
func runs(t *testing.T, path string, at int, die bool, s Set) (ended bool) {
	f := open(t, path)
	step := 0
	f.step = func(string) error {
		if step++; step != at {
			return nil
		}
		ended = true
		if die {
			panic(killed{})
		}
		return errors.New("no room")
	}
	defer func() {
		if gone := recover(); gone != nil {
			require.Equal(t, killed{}, gone)
			require.NoError(t, f.lock.Close()) // as the system does
			require.NoError(t, f.root.Close())
			return
		}
		require.NoError(t, f.Close())
	}()
	if err := f.Write(context.Background(), s); err != nil {
		require.ErrorContains(t, err, "cannot be written: no room")
	}
	return ended
}

// At every step of a write the run is killed or the disk fails: the marker then lists the older set or the newer one,
// each whole, or says that one is under way, and the next run ends it.
func TestKilledAtEveryStep(t *testing.T) {
	for _, before := range []map[string]string{nil, older} {
		for _, die := range []bool{true, false} {
			for at, more := 1, true; more; at += samples.Of(3, 1, 1) {
				path := t.TempDir()
				require.NoError(t, os.WriteFile(filepath.Join(path, "mine"), []byte("mine"), 0o600))
				if before != nil {
					runs(t, path, -1, die, of("plot", before))
				}
				more = runs(t, path, at, die, of("plot", newer))
				require.True(t, more || at > 10, "there are steps")
				text, err := os.ReadFile(filepath.Join(path, Marker))
				if before != nil {
					require.NoError(t, err)
				}
				underWay := strings.Contains(string(text), "# set under way plot")
				if !underWay {
					holds(t, path, before, newer)
				}
				f := open(t, path)
				require.NoError(t, f.Close())
				all := holds(t, path, before, newer)
				require.Equal(t, "mine", all["mine"])
				delete(all, "mine")
				if underWay || !more {
					require.Equal(t, newer, all)
				} else {
					require.True(t, len(all) == len(before) || len(all) == len(newer), "nothing is left behind: %v", all)
				}
				runs(t, path, -1, die, of("plot", older))
				require.Equal(t, "three", tree(t, path)["e/f.txt"], "and can be written to")
			}
		}
	}
}

// holds requires one of two sets, whole, and returns what there is.
func holds(t *testing.T, path string, one, other map[string]string) map[string]string {
	t.Helper()
	all := tree(t, path)
	whole := func(set map[string]string) bool {
		for name, content := range set {
			if all[name] != content {
				return false
			}
		}
		return true
	}
	require.True(t, whole(one) || whole(other), "%v", all)
	return all
}

// A set whose staged files somebody has removed is told to have lost parts.
func TestLostStaging(t *testing.T) {
	path := t.TempDir()
	for at := 1; ; at++ {
		require.True(t, runs(t, path, at, true, of("plot", newer)))
		text, _ := os.ReadFile(filepath.Join(path, Marker))
		if strings.Contains(string(text), "under way") {
			break
		}
	}
	for _, name := range names(t, path) {
		if isStaging(name) {
			require.NoError(t, os.RemoveAll(filepath.Join(path, name)))
		}
	}
	f := open(t, path)
	require.ErrorContains(t, f.Whole("plot"), "parts of it are lost")
	require.NoError(t, f.Close())
	f = open(t, path)
	require.ErrorContains(t, f.Whole("plot"), "parts of it are lost", "still")
	require.NoError(t, f.Write(context.Background(), of("plot", newer)))
	require.NoError(t, f.Whole("plot"))
	require.NoError(t, f.Close())
}

// One writes, the others are told so; afterwards the next may.
func TestOneAtATime(t *testing.T) {
	path := filepath.Join(t.TempDir(), "out")
	f := open(t, path)
	for range 3 {
		_, err := Open(path)
		require.ErrorContains(t, err, "another strandry is writing to it: wait for its end, or name another folder")
	}
	require.NoError(t, f.Close())
	require.NoDirExists(t, path, "made for nothing")

	require.NoError(t, os.Mkdir(path, 0o755))
	const runs = 200
	in, done := make(chan struct{}, 1), make(chan int, 4)
	for range 4 {
		go func() {
			got := 0
			for range runs {
				f, err := Open(path)
				if err != nil {
					continue
				}
				got++
				select {
				case in <- struct{}{}:
				default:
					t.Error("two at once")
				}
				<-in
				if err := f.Close(); err != nil {
					t.Error(err)
				}
			}
			done <- got
		}()
	}
	total := 0
	for range 4 {
		total += <-done
	}
	require.Positive(t, total)
	require.Empty(t, names(t, path))
}

// A lock's file that a killed run has left is no obstacle; one with a content is somebody's, and stays.
func TestLeftLock(t *testing.T) {
	path := t.TempDir()
	for _, content := range []string{"", "mine"} {
		require.NoError(t, os.WriteFile(filepath.Join(path, lockFile), []byte(content), 0o600))
		require.NoError(t, open(t, path).Close())
		if content == "" {
			require.Empty(t, names(t, path))
		}
	}
	require.Equal(t, map[string]string{lockFile: "mine"}, tree(t, path))
}

func TestForeignMarkers(t *testing.T) {
	path := t.TempDir()
	sum := strings.Repeat("ab", 32)
	good := markerFirst + "\n# set plot\n" + sum + "  a.txt\n" + markerEnd + "\n"
	_, err := parseMarker([]byte(good))
	require.NoError(t, err)
	for _, text := range []string{
		"", "mine", good[:len(good)-1], good[:20], strings.Replace(good, "a.txt", "../a.txt", 1), strings.Replace(good, "ab", "xy", 1),
		strings.Replace(good, "# set plot\n", "", 1), strings.Replace(good, "# set plot", "# set under way plot .strandry-12", 1),
		strings.Replace(good, "# set plot", "# set under way plot ../../0123456789abcdef", 1), strings.Repeat("#\n", longestMark),
	} {
		require.NoError(t, os.WriteFile(filepath.Join(path, Marker), []byte(text), 0o600))
		_, err := Open(path)
		require.ErrorContains(t, err, ".strandry: damaged, or not written by strandry: move it away", text[:min(60, len(text))])
		require.Equal(t, []string{Marker}, names(t, path))
	}
}

// A writer that fails, or a context that ends, leaves nothing.
func TestUnwritten(t *testing.T) {
	path := t.TempDir()
	f := open(t, path)
	s := of("plot", older)
	s.Files = append(s.Files, File{"late.txt", func(io.Writer) error { return errors.New("no words") }})
	require.ErrorContains(t, f.Write(context.Background(), s), "late.txt: cannot be written: no words")
	ctx, cancel := context.WithCancel(context.Background())
	s.Files[3].Write = func(out io.Writer) error {
		cancel()
		_, err := out.Write(make([]byte, 1<<20))
		return err
	}
	require.ErrorIs(t, f.Write(ctx, s), context.Canceled)
	ctx, cancel = context.WithCancel(context.Background())
	at := make(chan struct{})
	s.Files[3].Write = func(io.Writer) error { cancel(); <-at; return nil }
	require.ErrorIs(t, f.Write(ctx, s), context.Canceled, "though the writer has not said a word for long")
	close(at)
	require.Empty(t, tree2(t, path))
	require.NoError(t, f.Close())
	require.Empty(t, names(t, path))

	file := filepath.Join(path, "file")
	require.NoError(t, os.WriteFile(file, nil, 0o600))
	_, err := Open(file)
	require.ErrorContains(t, err, "this is a file; the name of a folder is needed")
	_, err = Open(filepath.Join(file, "inside"))
	require.ErrorContains(t, err, "cannot be written")
	require.NoError(t, os.Mkdir(filepath.Join(path, "a.txt"), 0o700))
	f = open(t, path)
	require.ErrorContains(t, f.Free(of("plot", older)), "a.txt: cannot be written: this is a folder")
	require.NoError(t, f.Close())
}
