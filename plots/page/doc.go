// Package page makes the build log of a scenario: one HTML page that needs no network and no
// script, and the same as Markdown with its figures as files. Of the same blocks are the page of the
// proofs and the sheet to print before a strand is weighed.
//
// The way is one-directional: a [Log] (the answer, the studies, the scenario) becomes
// sections of blocks in plain words and finished numbers; the two writers know nothing but
// blocks. So both say the same, and neither computes anything. Words and units are
// those of package table, figures those of package figure.
//
// Titles and names come from a user's file: in HTML they pass through html/template, in Markdown
// through an escape of all that could be markup. The page forbids itself, by its
// Content-Security-Policy, to load anything and to run anything.
//
// Left out: other languages than English, and pages of several scenarios.
package page
