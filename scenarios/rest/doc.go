// Package rest tells how long a loose strand at rest in one air takes until its mean
// content passes a limit, drying or taking up water.
//
// The strand is marched as one that runs, at a millimetre a second, through a zone as
// long as the time asks for. The mean of a strand that begins uniform moves one way
// only, so that the time is found by doubling it until the limit is passed and by package root
// from there.
//
// Left out: a wound spool, whose inner layers are shielded and which takes longer
// both ways; air that the strand changes.
package rest
