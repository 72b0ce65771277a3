/* A job: one tub and all that is made from it. Immutable, atomically reference counted; edits (edit.h) make new jobs that share
 * all that did not change. The arrays are shared between jobs too: never change one. */
#pragma once

#include "cloth/finish.h"
#include "cloth/record.h"
#include "cloth/scrap.h"
#include "cloth/textile.h"

G_BEGIN_DECLS

typedef struct
{
  char *name;                 /* "<sha256>.png" or ".jpg" */
  GBytes *bytes;              /* NULL: missing or broken, drawn as plain fill */
} OddPicture;
OddPicture *odd_picture_new (const char *name, GBytes *bytes);
OddPicture *odd_picture_ref (OddPicture *self);
void odd_picture_unref (OddPicture *self);

typedef struct                /* her own; 0: not told, then the figures of data/figures/work_time.csv hold */
{
  double sewing_per_min;      /* stitches a minute */
  double overlocker_per_min;
  double handling_s;          /* once a seam */
  double pressing_s_per_m;
  double stitch_mm;           /* length of a stitch at the sewing machine */
  double walk_s;              /* from one station to the next */
} OddSpeeds;

typedef struct
{
  double usable_square_mm;    /* an offcut that holds this square is worth keeping; first offered: 50, our choice */
  double min_side_mm;         /* no patch narrower than this is offered; first offered: 30, our choice */
  double column_width_mm;     /* finished width of a new column; first offered: 240, our choice */
  double fold_loss_mm;        /* a fold takes anything from 0 to this of the cloth at a seam; first offered: 1, our choice until a panel is measured */
  double scatter_mm;          /* how far one seam strays from the next, standard deviation of what it takes; first offered: 1, our choice */
  double bias_mm;             /* how far all seams of a day may stray together, standard deviation a seam; first offered: 0 */
  double ease_percent;        /* how much longer a panel may be that is eased into a seam; first offered: 1, our choice, common practice without a source */
  double mass_ratio;          /* fabrics that are heavier than this many times another do not mix; first offered: 2, common practice, no source */
  double shrink_gap_mm;       /* nor do those that a wash pulls farther apart over a column's width; first offered: 5, our choice */
  double light_from;          /* L* from which a fabric is light, so that what bleeds would stain it; first offered: 70, our choice */
  OddSpeeds speeds;
  double stay_from_deg;       /* a cut edge farther off both threads is on the bias; first offered: 20, our choice */
  double stay_from_mm;        /* and to be stayed when it is longer than this; first offered: 150, our choice */
} OddSettings;

#define ODD_SETTINGS_FIRST ((OddSettings) { 50.0, 30.0, 240.0, 1.0, 1.0, 0.0, 1.0, 2.0, 5.0, 70.0, { 0.0, 0.0, 0.0, 0.0, 0.0, 0.0 }, 20.0, 150.0 })

typedef struct _OddJob OddJob;
struct _OddJob                /* read only */
{
  GPtrArray *fabrics;         /* (element-type OddFabric) */
  GPtrArray *finishes;        /* (element-type OddFinish) */
  GPtrArray *scraps;          /* (element-type OddScrap) */
  GPtrArray *loose_panels;    /* (element-type OddPanel) */
  GPtrArray *textiles;        /* (element-type OddTextile) */
  GPtrArray *pictures;        /* (element-type OddPicture) */
  GPtrArray *record;          /* (element-type OddAct) what was really done, in order */
  OddTreatment treatment;     /* both members set: what everything inherits in the end */
  OddSettings settings;
  OddId next_id;
  char *unknown_json;
  /*< private >*/
  gpointer index;             /* id -> value, made on first use */
};

/* An empty job: shipped finishes, overlocked 12.7 mm, no scraps, one textile without panels named "". */
OddJob *odd_job_new (void);
/* For readers: takes references of the arrays; checks that every id named exists, is unique, below next_id, scrap numbers unique; error names the thing.
 * A record that is NULL is an empty one. */
OddJob *odd_job_new_take (const OddJob *values, GError **error);
OddJob *odd_job_ref (OddJob *self);
void odd_job_unref (OddJob *self);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (OddJob, odd_job_unref)

#define ODD_JOB_ERROR (odd_job_error_quark ())
GQuark odd_job_error_quark (void);
typedef enum
{
  ODD_JOB_ERROR_NOT_FOUND,     /* an id that is not there */
  ODD_JOB_ERROR_REFUSED,       /* sewn, cut or locked; message says what to do */
  ODD_JOB_ERROR_NO_ROOM,       /* does not fit */
  ODD_JOB_ERROR_BROKEN         /* contradicts itself */
} OddJobError;

/* By id; (transfer none), NULL when not there. */
OddFabric *odd_job_get_fabric (OddJob *self, OddId id);
OddFinish *odd_job_get_finish (OddJob *self, OddId id);
OddFinish *odd_job_get_finish_by_key (OddJob *self, const char *key);
OddScrap *odd_job_get_scrap (OddJob *self, OddId id);
OddScrap *odd_job_get_scrap_by_number (OddJob *self, guint number);
OddTextile *odd_job_get_textile (OddJob *self, OddId id);
OddPicture *odd_job_get_picture (OddJob *self, const char *name);
OddFabric *odd_job_get_scrap_fabric (OddJob *self, OddScrap *scrap);
/* @out_textile: the textile it hangs in, or NULL when loose; @out_index its place there. Any out may be NULL. */
OddPanel *odd_job_get_panel (OddJob *self, OddId id, OddTextile **out_textile, guint *out_index);
/* The panel that holds a patch, strip or seam; for a join NULL and @out_textile set. */
OddPanel *odd_job_find_panel_of (OddJob *self, OddId node_or_seam_id, OddTextile **out_textile, guint *out_index);

typedef enum { ODD_SCRAP_FREE, ODD_SCRAP_PLACED, ODD_SCRAP_SEWN, ODD_SCRAP_GONE } OddScrapState;
/* Derived: sewn when any seam of a patch of it is sewn, or when it is in a piece; gone when the piece is, or when it is cut out and none of its
 * patches lies anywhere. */
OddScrapState odd_job_get_scrap_state (OddJob *self, OddId scrap_id);
const char *odd_scrap_state_get_nick (OddScrapState state);
/* Patches that lie on the scrap, in tree order: in panels, then in pieces, then in pieces that are gone. (transfer none) (array length=out_n) */
typedef struct { OddPanel *panel; OddNode *leaf; } OddUse;
const OddUse *odd_job_get_uses (OddJob *self, OddId scrap_id, guint *out_n);

/* The scrap whose piece has this id; NULL when none. (transfer none) */
OddScrap *odd_job_find_pieced (OddJob *self, OddId piece_id);

/* "Panel 3" or its name, "Piece 41" for the piece of scrap 41; "Textile 1" or its name. (transfer full) */
char *odd_job_dup_panel_name (OddJob *self, OddPanel *panel);
char *odd_job_dup_textile_name (OddJob *self, OddTextile *textile);

/* What a chain of levels comes to, from the outside in; @levels may hold NULL. Later levels win. */
void odd_job_resolve (OddJob *self, const OddTreatment *const *levels, guint n_levels, OddFinish **out_finish, double *out_allowance_mm);

G_END_DECLS
