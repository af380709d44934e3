package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"strandry/plots/folder"
	"strandry/plots/page"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/fit"
)

// planned tells what weighings would tell, and writes what to weigh by if a folder is named.
func (f *fitting) planned(c *cobra.Command, file string) error {
	w, err := scenarios.OpenPlan(file)
	if err != nil {
		return err
	}
	var design *scenarios.Scenario
	inputs := w.Inputs()
	if f.design != "" {
		if design, err = scenarios.Load(f.design); err != nil {
			return err
		}
		inputs = append(inputs, design.Inputs()...)
	}
	find := func(context.Context) (table.Page, error) {
		p, err := fit.MakePlan(w, design)
		return &table.FitPlan{Version: version, Plan: p}, err
	}
	if f.output == "" {
		return answer(c, f.asJSON, find)
	}
	files, err := planFiles(w)
	if err != nil {
		return err
	}
	to := target{path: f.output}
	return to.within(func(d *folder.Folder) error {
		set := folder.Set{Kind: "plan", Files: files, Inputs: inputs, Kept: true}
		if err := d.Free(set); err != nil {
			return err
		}
		found, err := unlessDone(c.Context(), find)
		if err != nil {
			return err
		}
		if set.Files, err = filled(files, found.(*table.FitPlan)); err != nil {
			return err
		}
		if err := written(c.Context(), d, set); err != nil {
			return err
		}
		if err := show(c.OutOrStdout(), found, f.asJSON); err != nil || f.asJSON {
			return err
		}
		_, err = io.WriteString(c.OutOrStdout(), "\n"+wroteTo(f.output, strings.Join(fileNames(set.Files), ", "))+
			fmt.Sprintf("Print %s, weigh, fill the tables in, then:\n  strandry fit %s\n", page.WeighingSheet, filepath.Join(f.output, filepath.Base(file))))
		return err
	})
}

// planFiles are those of a plan: the sheet, a table for each run, which are still without a content, the copy of the plan and what it rests on. No two have one name.
func planFiles(w *scenarios.Weighings) ([]folder.File, error) {
	copied, err := w.Copy()
	if err != nil {
		return nil, err
	}
	files := []folder.File{{Name: page.WeighingSheet}}
	for _, run := range w.Runs {
		files = append(files, folder.File{Name: filepath.ToSlash(filepath.Clean(run.File))})
	}
	files = append(files, folder.Bytes(filepath.Base(w.Inputs()[0]), copied.Text))
	for _, m := range copied.Materials {
		files = append(files, folder.Bytes(m.Name, m.Text))
	}
	for i, file := range files {
		if slices.ContainsFunc(files[:i], func(other folder.File) bool { return strings.EqualFold(other.Name, file.Name) }) {
			return nil, fmt.Errorf("%s: two files of the folder would be called %s: name the table of that run otherwise", w.File, file.Name)
		}
	}
	return files, nil
}

// filled gives the sheet and the tables their content.
func filled(files []folder.File, p *table.FitPlan) ([]folder.File, error) {
	sheet, err := page.OfPlan(p)
	if err != nil {
		return nil, err
	}
	out := slices.Clone(files)
	out[0] = folder.Bytes(out[0].Name, sheet)
	for i := range p.Plan.Runs {
		out[1+i] = folder.Bytes(out[1+i].Name, p.Empty(i))
	}
	return out, nil
}
