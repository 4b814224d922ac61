// Package proof holds finished packs against the dressed units they show. Its
// tests build the pack of every sample and odd plan, read the PDF back with a
// reader that knows nothing of the drawing, measure its lines, and want to
// find the whole unit again: every height, hook, bracket and grip, every
// balloon and address, at the printed scale.
//
// It has no code of its own: only tests.
package proof
