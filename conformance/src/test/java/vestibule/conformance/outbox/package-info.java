/** The outbox on both of its databases: the same story must leave the same rows. */
package vestibule.conformance.outbox;
