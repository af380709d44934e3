package scenarios

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"strandry/materials"
	"strandry/materials/text/strict"
)

// Inputs lists the files that the weighings were made from, as paths: their own, the tables, and the files of the material. A plan has no tables yet.
func (w *Weighings) Inputs() []string {
	all := []string{w.path}
	for _, run := range w.Runs {
		if run.Sum != "" {
			all = append(all, beside(w.path, run.File))
		}
	}
	if strings.HasSuffix(w.found.name, ".toml") {
		// What cannot be read is an error elsewhere.
		_, _ = materials.Resolve(w.found.name, func(name string) ([]byte, error) {
			all = append(all, beside(w.path, name))
			return Text(beside(w.path, name))
		})
	}
	return all
}

// Copy makes a copy of the file of a plan that [OpenPlan] has read, for a folder that holds the tables of its runs too. Its material file and the bases of that are brought
// along as by [Scenario.Copy]. The error is that a file cannot be read again, or [strict.Faults]: that a run names no table, or one that is another's or lies
// elsewhere.
func (w *Weighings) Copy() (*Copy, error) {
	if err := w.tablesInOneFolder(); err != nil {
		return nil, err
	}
	text, err := Text(w.path)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", w.File, err)
	}
	d, err := Parse(w.path, text)
	if err != nil {
		return nil, err
	}
	c := &Copy{Text: d.Text()}
	if own := w.found.name; strings.HasSuffix(own, ".toml") {
		name, err := c.bring(own, func(file string) ([]byte, error) { return Text(beside(w.path, file)) })
		if err != nil {
			return nil, err
		}
		c.Text = append(fmt.Appendf(nil, "# the material file %q was brought along as %q\n", own, name), strict.Rewritten(c.Text, func(key, value string) (string, bool) {
			return strict.Quoted(name), key == "material" && value == own
		})...)
	}
	if _, err := ReadPlan(w.path, c.Text, c.open); err != nil {
		return nil, fmt.Errorf("no copy can be made that is read in another folder: %w", err)
	}
	return c, nil
}

// tablesInOneFolder refuses runs without a table of their own in the folder of a copy.
func (w *Weighings) tablesInOneFolder() error {
	faults := slices.Clone(w.unnamed)
	for i, run := range w.Runs {
		f := strict.Fault{File: w.File, Key: fmt.Sprintf("run[%d].file", i+1), Given: strict.Quoted(run.File)}
		if slices.ContainsFunc(w.Runs[:i], func(other Run) bool { return filepath.Clean(other.File) == filepath.Clean(run.File) }) {
			f.Problem, f.Allowed = "the table of another run", "one for each run"
			faults = append(faults, f)
		}
		if !filepath.IsLocal(run.File) {
			f.Problem, f.Allowed = "lies in another folder", `the name of a table beside the file, such as "dry-80.csv"`
			faults = append(faults, f)
		}
	}
	return faults.Err()
}
