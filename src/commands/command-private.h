/* What the commands share. */
#pragma once

#include "cloth/job.h"
#include "commands/command.h"
#include "piecing/proposal.h"

G_BEGIN_DECLS

/* Each gets the words after "oddment", its own name first. */
int odd_command_report (GStrv words);
int odd_command_picture (GStrv words);
int odd_command_check (GStrv words);
int odd_command_piece (GStrv words);

/* "piece --count": what each scrap gives of the templates, and all of them; nothing is pieced. */
int odd_command_count (OddJob *job, const OddProposalOptions *options);

/* One line on standard error, "oddment: " before it. Line ends in the text become blanks. Returns ODD_EXIT_BAD. */
int odd_command_fail (const char *format, ...) G_GNUC_PRINTF (1, 2);

/*
 * odd_command_parse:
 * @words: the command's name and what follows it; what is left holds the file names
 * @entries: its options
 * @arguments: "FILE OUT.png", for the help and to count by
 * @summary: one sentence, translated
 * @out_status: set when the command is over already: help was asked for, or the words are wrong
 *
 * Returns: (transfer full): the arguments, as many as @arguments names; NULL when @out_status is set
 */
GStrv odd_command_parse (GStrv words, const GOptionEntry *entries, const char *arguments, const char *summary, int *out_status);

/* A job or a scrap list; NULL after odd_command_fail(). */
OddJob *odd_command_load (const char *path);

/* Writes to standard output and makes sure that it got there. Returns an exit status. */
int odd_command_print (const char *text, gsize length);

G_END_DECLS
