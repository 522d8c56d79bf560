// Package cec carries the Canadian Electrical Code, Part I (CSA C22.1) as a
// profile: tables as data in the TOML files beside the code, each row with how it
// was checked, and rules that are listed in rules.go, one file each.
//
// It shares nothing with the American family but ideas. Where it differs most:
// a load is continuous unless its hours show otherwise, by time added up and not
// by an unbroken run; the limit is a share of the circuit's rating, which is the
// lesser of device and conductor; voltage drop is a rule; a receptacle has the
// rating of its circuit; bundled conductors keep more of their ampacity.
//
// No purchased copy of the code stands behind it. Clauses and values come from
// public pages, most of them about the 2021 edition, or from memory, and say
// which. What was seen for an earlier edition is taken to stand in the later one;
// subrule numbers move and are left out where they do. Profile.NotCovered says
// what is missing: motors and transformers above all.
package cec
