package page

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"

	"strandry/plots/figure"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/buildlog"
)

// Log is all that a build log tells of.
type Log struct {
	Scenario *scenarios.Scenario
	Answer   *table.Answer
	Survey   *buildlog.Survey
	Command  string // that makes the log again
}

// File is a file of a build log, its name with slashes.
type File struct {
	Name    string
	Content []byte
}

// Names of the two pages, and the folder of the figures.
const (
	HTML     = "buildlog.html"
	Markdown = "buildlog.md"
	Figures  = "figures"
)

// Files makes the files of the log, the two pages last. The same log gives the same bytes.
// A number that is not finite is an error.
func (l *Log) Files() ([]File, error) {
	survey := *l.Survey
	if survey.Keeps != nil {
		if err := (&table.Keeps{Answer: survey.Keeps}).Check(); err != nil {
			return nil, err
		}
		survey.Keeps = nil // some of its numbers may be infinite
	}
	if err := errors.Join(l.Answer.Check(), table.Finite("the studies", &survey)); err != nil {
		return nil, err
	}
	pictures, missing, err := l.pictures()
	if err != nil {
		return nil, err
	}
	d := l.document(pictures, missing)
	var files []File
	for _, p := range pictures {
		files = append(files, File{Figures + "/" + p.Name + ".png", p.PNG}, File{Figures + "/" + p.Name + ".svg", p.SVG})
	}
	text, err := markdownOf(d)
	if err != nil {
		return nil, err
	}
	page, err := htmlOf(d)
	return append(files, File{Markdown, text}, File{HTML, page}), err
}

// Names lists every file that a build log of a scenario that varies these axes may have.
func Names(vary []scenarios.Axis) []string {
	var all []string
	names := []string{pathName, profilesName, heatmapName, sectionName, drawingName, fillingName, mapName, neededName, suitsName}
	for _, name := range figure.SweepNames(vary) {
		names = append(names, variedName+"-"+name)
	}
	for _, name := range names {
		all = append(all, Figures+"/"+name+".png", Figures+"/"+name+".svg")
	}
	return append(all, Markdown, HTML)
}

// file is the scenario's file without its folders, which tell readers nothing.
func (l *Log) file() string { return filepath.Base(l.Scenario.File) }

// document writes all sections.
func (l *Log) document(pictures []*picture, missing []string) *document {
	d := &document{
		Kind:  "Build log",
		Skip:  "answer",
		Title: l.Scenario.Title,
		Lead:  l.lead(),
		Foot:  fmt.Sprintf("strandry %s, from %s", l.Answer.Version, l.file()),
		Sections: []section{
			{"question", "The question", l.question()},
			{"scenario", "The scenario in words", l.scenario()},
			{"answer", "The answer", l.answer()},
			{"figures", "What the figures show", shown(pictures, missing)},
			{"materials", "Which materials suit this dryer", l.suits()},
			{"build", "What to build", l.build()},
			{"keeping", "Keeping it dry", l.keeping()},
			{"doubts", "What is uncertain", l.doubts()},
			{"sources", "Sources of the values used", l.sources()},
			{"assumptions", "Assumptions, and what the model leaves out", l.assumptions()},
			{"safety", "Safety", l.safety()},
			{"again", "How to make this again", l.again()},
		},
	}
	behind := func(id string, s section) {
		at := slices.IndexFunc(d.Sections, func(s section) bool { return s.ID == id })
		d.Sections = slices.Insert(d.Sections, at+1, s)
	}
	if len(l.Answer.Checks) > 0 {
		behind("answer", section{"checks", "Checked on the machine", l.checks()})
	}
	if l.Answer.Machine != nil {
		behind("build", section{"machine", "The machine", l.machine()})
	}
	return d
}
