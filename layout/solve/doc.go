// Package solve holds exact optimisers on plain integers. It knows nothing of
// plans, parts or paper: callers translate their rows and pieces to numbers
// and the answers back.
//
// Slots gives every row of a face its mounting height. Places and Spaced give
// the pieces of one row their places sideways. Allot gives products fronts on rows.
// Cover buys pieces in packs, Lots season by season; Basket buys of one seller.
//
// Every answer is the true optimum of an objective stated on its type (of Allot
// and Basket, where their effort allows), with ties broken down to a single answer, so the same
// numbers always give the same result. Lengths are nanometres. Input that no plan
// can lead to (an order that bites its own tail, slices of unequal length) is a
// mistake of the program and panics.
package solve
