export { DEMO_ACCOUNTS, DEMO_SHOP_ID } from './demo-accounts.js';
