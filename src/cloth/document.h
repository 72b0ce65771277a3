/* The one mutable object: holds the current job, applies edits, remembers earlier jobs for undo. */
#pragma once

#include <gio/gio.h>
#include "cloth/edit.h"

G_BEGIN_DECLS

#define ODD_TYPE_DOCUMENT (odd_document_get_type ())
G_DECLARE_FINAL_TYPE (OddDocument, odd_document, ODD, DOCUMENT, GObject)

/* Signals: changed (OddJob *before, OddJob *after) — boxed type ODD_TYPE_JOB.
 * Properties: can-undo, can-redo (gboolean), undo-label, redo-label (string or NULL), modified (gboolean: differs from what was last saved),
 * file (GFile or NULL), title (string: file's base name without ending, or "New job"). */
#define ODD_TYPE_JOB (odd_job_get_type ())
GType odd_job_get_type (void);

OddDocument *odd_document_new (OddJob *job);
OddJob *odd_document_get_job (OddDocument *self);                 /* (transfer none) */
/* Property "job" (boxed) notifies too. */
/* Takes the new job (transfer full) as one step named @label ("Sew on scrap 14"); nothing happens when it is the same pointer. */
void odd_document_apply (OddDocument *self, OddJob *job, const char *label);
/* Like apply, but joins the last step when that has the same non-NULL @merge_key and was applied by this call (typing in an entry, nudging). */
void odd_document_apply_merging (OddDocument *self, OddJob *job, const char *label, const char *merge_key);
void odd_document_end_merging (OddDocument *self);
gboolean odd_document_undo (OddDocument *self);
gboolean odd_document_redo (OddDocument *self);
/* A job read anew: clears undo. */
void odd_document_reset (OddDocument *self, OddJob *job, GFile *file);
void odd_document_mark_saved (OddDocument *self, OddJob *saved, GFile *file);
gboolean odd_document_get_modified (OddDocument *self);
GFile *odd_document_get_file (OddDocument *self);                 /* (transfer none) */
const char *odd_document_get_title (OddDocument *self);
const char *odd_document_get_undo_label (OddDocument *self);      /* NULL when none */
const char *odd_document_get_redo_label (OddDocument *self);

G_END_DECLS
