// Package draw puts a dressed unit on paper: elevations, sections, the plan
// view, the pictorial, tables, title block. Each sheet function returns the
// pages it needs, laid out but not yet numbered; the pack room orders and
// numbers them.
//
// Rules of the drawing office kept here: one datum, the finished floor; line
// widths of ISO 128-2; dimensions after ISO 129-1, read from below; lettering
// of ISO 3098 no smaller than 2.5 mm, 1.8 mm in tables and inside goods; what
// does not fit goes to a table or a further sheet, never smaller.
package draw
